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

export const ACCEPTED: Readonly<Record<string, Accepted>> = {};
