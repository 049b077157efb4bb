/**
 * Leak rate of a closed chamber from its pressure rise: Q = V dp/dt, with the slope by least
 * squares over the watch, so that no single noisy sample or converter step decides, and with the
 * uncertainty of that slope. The profile defines the acceptable rate.
 */

/**
 * Running sums of a straight-line fit of pressure over time, s, since the chamber was closed.
 * Pressures are relative to the first one, Pa, so that their squares keep their precision.
 */
export interface SlopeFit {
  readonly n: number;
  readonly firstPa: number;
  readonly sumT: number;
  readonly sumP: number;
  readonly sumTT: number;
  readonly sumTP: number;
  readonly sumPP: number;
}

export const NO_POINTS: SlopeFit = {
  n: 0,
  firstPa: 0,
  sumT: 0,
  sumP: 0,
  sumTT: 0,
  sumTP: 0,
  sumPP: 0,
};

export function addPoint(fit: SlopeFit, timeS: number, pressurePa: number): SlopeFit {
  const firstPa = fit.n === 0 ? pressurePa : fit.firstPa;
  const p = pressurePa - firstPa;
  return {
    n: fit.n + 1,
    firstPa,
    sumT: fit.sumT + timeS,
    sumP: fit.sumP + p,
    sumTT: fit.sumTT + timeS * timeS,
    sumTP: fit.sumTP + timeS * p,
    sumPP: fit.sumPP + p * p,
  };
}

/** Sums of squares and products about the means. */
export interface Spread {
  readonly tt: number;
  readonly tp: number;
  readonly pp: number;
}

export function spreadOf({ n, sumT, sumP, sumTT, sumTP, sumPP }: SlopeFit): Spread {
  return {
    tt: sumTT - (sumT * sumT) / n,
    tp: sumTP - (sumT * sumP) / n,
    pp: sumPP - (sumP * sumP) / n,
  };
}

export interface Line {
  /** Pressure at time 0, Pa. */
  readonly startPa: number;
  readonly slopePaPerS: number;
  /** Standard error of the slope, Pa/s. */
  readonly slopeErrorPaPerS: number;
  /** Sum of the squared residuals, Pa2. */
  readonly residualPa2: number;
}

/** Null with fewer than three moments: two points always lie on a line. */
export function lineOf(fit: SlopeFit): Line | null {
  const { n, firstPa, sumT, sumP } = fit;
  const { tt, tp, pp } = spreadOf(fit);
  if (n < 3 || !(tt > 0)) return null;
  const slopePaPerS = tp / tt;
  const residualPa2 = Math.max(0, pp - slopePaPerS * tp);
  return {
    startPa: firstPa + (sumP - slopePaPerS * sumT) / n,
    slopePaPerS,
    slopeErrorPaPerS: Math.sqrt(residualPa2 / (n - 2) / tt),
    residualPa2,
  };
}

/**
 * Leak rate in Pa m3/s into a chamber of `volumeM3`, positive when it leaks in. Q = V dp/dt as in
 * vacuum handbooks (rate-of-rise test).
 */
export const leakRatePaM3PerS = (slopePaPerS: number, volumeM3: number): number =>
  volumeM3 * slopePaPerS;
