/** The length of a crack on a job sheet. */
import type { JobSheet } from './job-sheet.ts';

/** Sheets may state it as the longest leg or, without legs, as the extent. */
export const lengthOf = ({
  longestLegM,
  diameterM,
}: Pick<JobSheet['damage'], 'longestLegM' | 'diameterM'>): number =>
  longestLegM > 0 ? longestLegM : diameterM;
