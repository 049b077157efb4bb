/**
 * What no record of this unit can show, however good: the unit has no sense for it. Report and
 * certificate print every row, in this order. The words stand in the language's `claims.json`: a
 * customer reads the short ones in a list after "cannot show".
 */
import { type ClaimWords, ENGLISH_CLAIMS } from '../language.ts';

export type CannotShowId = keyof ClaimWords['cannotShow'];
export const CANNOT_SHOW = Object.keys(ENGLISH_CLAIMS.cannotShow) as readonly CannotShowId[];
