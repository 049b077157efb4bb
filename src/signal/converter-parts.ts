/**
 * The converter's contribution to every channel's budget: its non-linearity, the step of a count,
 * and noise. The channel supplies its local slope, the value of a count.
 */
import { type BudgetInput, repeated, within } from './budget.ts';
import type { UncertaintySettings } from './uncertainty-settings.ts';

/** A reading is the median of three samples: for normal noise its variance is 1 - sqrt(3)/pi. */
const MIDDLE_OF_THREE = Math.sqrt(1 - Math.sqrt(3) / Math.PI);
const HALF_STEP_COUNTS = 0.5;
/** Harmonics of the sawtooth beyond this number are summed as an integral. */
const HARMONICS = 200;

/** The rows for one reading of `counts`; `perCount` is the change of the result per count. */
export function converterRows(
  counts: number,
  perCount: number,
  { converter }: UncertaintySettings,
): readonly BudgetInput[] {
  const row = (name: string, spread: number) => ({
    name,
    value: counts,
    unit: 'counts',
    spread,
    sensitivity: perCount,
  });
  return [
    within(row('converter curve', converter.linearityCounts)),
    within(row('converter step', HALF_STEP_COUNTS)),
    repeated(row('noise', MIDDLE_OF_THREE * converter.noiseCounts), converter.noiseReadings),
  ];
}

/**
 * Standard uncertainty, in counts, that remains of the converter's step when very many readings of
 * one steady signal are averaged. The error is a sawtooth of the signal. Normal noise smooths it
 * and damps its n-th harmonic of amplitude 1/(pi n) by exp(-2 pi^2 n^2 sigma^2) (dither; from
 * memory). Without noise all readings have the same error and the whole step remains, 1/sqrt(12).
 */
export function stepLeftAfterAveraging(noiseCounts: number): number {
  const damping = (n: number): number => Math.exp(-2 * (Math.PI * n * noiseCounts) ** 2);
  const beyond = HARMONICS + 0.5;
  let variance = damping(beyond) ** 2 / (2 * Math.PI ** 2 * beyond);
  for (let n = HARMONICS; n >= 1; n--) variance += (damping(n) / (Math.PI * n)) ** 2 / 2;
  return Math.sqrt(variance);
}

/**
 * Standard deviation, in counts, of what changes from one sample to the next: noise and its
 * quantisation.
 */
export function randomCounts(noiseCounts: number): number {
  const whole = noiseCounts ** 2 + 1 / 12;
  return Math.sqrt(Math.max(0, whole - stepLeftAfterAveraging(noiseCounts) ** 2));
}
