/**
 * A counted dose as its claim leaves it: a count shows nothing where the claim on it is not shown.
 * claims/grounds-dose.ts judges the claim.
 */
import type { ClaimState } from './claims/claim.ts';
import type { ObjectionId } from './claims/objections.ts';
import type { CountedDose } from './report-dose.ts';

/** A counted dose and what stands against its claim. */
export interface DoseResult extends CountedDose {
  readonly objections: readonly ObjectionId[];
}

/**
 * The dose as its claim leaves it: a count alone shows nothing where the claim is not shown, but a
 * count that falls short still does.
 */
export const claimedDose = (
  dose: CountedDose,
  state: ClaimState,
  objections: readonly ObjectionId[],
): DoseResult => ({
  ...dose,
  objections,
  verdict: state !== 'shown' && dose.verdict === 'met' ? 'not shown' : dose.verdict,
});

const WORST_FIRST = ['not cured', 'not met', 'not recorded', 'not shown', 'met'] as const;

/**
 * The dose on which the overall verdict rests: the target is met only where every portion meets its
 * own.
 */
export function weakestDose(doses: readonly DoseResult[]): DoseResult {
  const rank = ({ verdict }: DoseResult): number => WORST_FIRST.indexOf(verdict);
  return doses.reduce((weakest, dose) => (rank(dose) < rank(weakest) ? dose : weakest));
}
