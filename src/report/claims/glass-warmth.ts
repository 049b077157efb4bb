/**
 * What the lamp warmed the glass by, cure by cure: the only sign of the light that comes from the
 * glass itself.
 */
import type { Measurement } from '../../core/measurements.ts';
import { type ClaimFacts, curesIn } from './claim-facts.ts';

export interface GlassRise {
  readonly seenK: number;
  /** Null where the record does not say what is usual. */
  readonly usualK: number | null;
}

/**
 * How much of the light a pane absorbs is known to within a factor of three. A rise below this share
 * of the usual one therefore tells that the light missed the glass.
 */
export const LEAST_SHARE_OF_USUAL = 1 / 3;

/** One for each cure, in their order; null where its rise is not on record. */
export function glassRisesIn(
  facts: Pick<ClaimFacts, 'phases' | 'measured'>,
): readonly (GlassRise | null)[] {
  const cures = curesIn(facts);
  return cures.map(({ fromS }, index) => {
    // Recorded on leaving the cure. A rise that was not seen is left out of the record, so rows
    // cannot be matched to cures by counting.
    const untilS = cures[index + 1]?.fromS ?? Number.POSITIVE_INFINITY;
    const of = (name: Measurement): number | null =>
      facts.measured.findLast((row) => row.name === name && row.atS > fromS && row.atS <= untilS)
        ?.value ?? null;
    const seenK = of('glassWarmedK');
    return seenK === null ? null : { seenK, usualK: of('glassUsuallyWarmedK') };
  });
}
