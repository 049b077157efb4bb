/** What a person gets wrong, in a whole job on a break that one cycle fills, and who finds it. */
import type { Outcome } from '../../src/core/events.ts';

export interface Mistake {
  readonly alarms: readonly string[];
  /** What the person finds who looks at the end. */
  readonly outcome: Outcome;
  /** The break is full of resin, and the resin is hard, whatever anybody says. */
  readonly filled: boolean;
  readonly hard: boolean;
}

export const MISTAKES: Readonly<Record<string, Mistake>> = {
  'early-yes': { alarms: [], outcome: 'clear', filled: true, hard: true },
  'double-press': { alarms: [], outcome: 'clear', filled: true, hard: true },
  'walks-off': { alarms: ['no-answer'], outcome: 'clear', filled: true, hard: true },
  'lifted-injector': { alarms: ['set-point-lost'], outcome: 'clear', filled: true, hard: true },
  'no-resin': { alarms: [], outcome: 'mark-remains', filled: false, hard: true },
  'wrong-bottle': { alarms: [], outcome: 'mark-remains', filled: true, hard: false },
  'film-left-off': { alarms: [], outcome: 'mark-remains', filled: true, hard: false },
  'film-left-on': { alarms: [], outcome: 'mark-remains', filled: true, hard: true },
};
