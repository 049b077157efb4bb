/** What a person gets wrong, in a whole job on a break that one cycle fills, and who finds it. */
import type { Outcome } from '../../src/core/events.ts';

export interface Mistake {
  readonly alarms: readonly string[];
  /** What the person finds who looks at the end; null where the job ends before. */
  readonly outcome: Outcome | null;
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
  // Soft after two further doses: there is no light that sets it.
  'wrong-bottle': { alarms: [], outcome: null, filled: true, hard: false },
  // Found at the scrape, covered, and given a further dose.
  'film-left-off': { alarms: [], outcome: 'clear', filled: true, hard: true },
  'film-left-on': { alarms: [], outcome: 'mark-remains', filled: true, hard: true },
};
