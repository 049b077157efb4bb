/**
 * Rows that nothing finds in a job, by hand: why this unit cannot know, and what its record then
 * must not claim. A row that stands here and of which the claim is still *shown* fails the campaign,
 * and so does one that is found.
 */
import type { JudgedClaim } from './claims.ts';

export interface Accepted {
  readonly why: string;
  /** What a record must leave open; null where no claim of a record rests on it. */
  readonly withdraws: JudgedClaim | null;
}

export const ACCEPTED: Readonly<Record<string, Accepted>> = {
  'relief-stuck-shut': {
    why: 'The valve is the last of three guards and no job comes near its pressure; only a test with a gauge opens it.',
    withdraws: 'interlocks',
  },
  'stop-contact-shorted': {
    why: 'Nobody presses the stop in a sound job; one of its two contacts is proved by the guided test alone.',
    withdraws: 'interlocks',
  },
  'shield-cut-shorted': {
    why: 'Nobody lifts the shield in the light of a sound job, and nobody reads this contact: only the bring-up checklist proves it. Where it is shorted, the one that is read still puts the lamp off.',
    withdraws: 'interlocks',
  },
  'over-pressure-shorted': {
    why: 'The switch opens above every pressure of a job; it is proved by the guided test alone.',
    withdraws: 'interlocks',
  },
};
