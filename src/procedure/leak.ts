/**
 * Leak rate of a closed chamber from the rise of its pressure: Q = V dp/dt, the slope by least
 * squares over the watch, so that one noisy sample or the converter's steps do not decide. What
 * rate is acceptable is the profile's matter.
 */

/** Running sums of a straight-line fit of pressure, Pa, over time, s, since the watch began. */
export interface SlopeFit {
  readonly n: number;
  readonly sumT: number;
  readonly sumP: number;
  readonly sumTT: number;
  readonly sumTP: number;
}

export const NO_POINTS: SlopeFit = { n: 0, sumT: 0, sumP: 0, sumTT: 0, sumTP: 0 };

export function addPoint(fit: SlopeFit, timeS: number, pressurePa: number): SlopeFit {
  return {
    n: fit.n + 1,
    sumT: fit.sumT + timeS,
    sumP: fit.sumP + pressurePa,
    sumTT: fit.sumTT + timeS * timeS,
    sumTP: fit.sumTP + timeS * pressurePa,
  };
}

/** Slope in Pa/s; null with fewer than two moments. */
export function slopePaPerS({ n, sumT, sumP, sumTT, sumTP }: SlopeFit): number | null {
  const spread = n * sumTT - sumT * sumT;
  return n < 2 || spread <= 0 ? null : (n * sumTP - sumT * sumP) / spread;
}

/**
 * Leak rate in Pa m3/s into a chamber of `volumeM3`, positive when it leaks in. Q = V dp/dt as in
 * vacuum handbooks (rate-of-rise test).
 */
export function leakRatePaM3PerS(fit: SlopeFit, volumeM3: number): number | null {
  const slope = slopePaPerS(fit);
  return slope === null ? null : volumeM3 * slope;
}
