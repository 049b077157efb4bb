/**
 * How the pressure of a closed chamber rises: in a straight line, or bending over to a plateau.
 * Both are fitted by least squares from running sums, and the bend counts only where it reduces the
 * residuals by more than chance would. `seal-finding.ts` names the cause.
 *
 * The bent rise is p = a + b t + A (1 - exp(-t/tau)). It keeps the slope b, because a tight seal
 * still leaks a little, and without it a plateau would be read too high. Time runs from the moment
 * at which the chamber was closed, so A is the height above the pressure at isolation: the pump
 * stops far above the vapour pressure of water, and only the gas added since then can distinguish
 * vapours. For one tau the fit is linear; tau is searched in a fixed table.
 */
import { addPoint, type Line, lineOf, NO_POINTS, type SlopeFit, spreadOf } from './leak.ts';

/** Time constants that are tried, s; each about a third longer than the one before. */
const TAUS_S = [3, 4, 5.3, 7, 9.3, 12.4, 16.5, 22, 29, 39];

/** Sums of e = 1 - exp(-t/tau) with itself, time and pressure. */
interface BendSums {
  readonly tauS: number;
  readonly sumE: number;
  readonly sumEE: number;
  readonly sumET: number;
  readonly sumEP: number;
}

export interface RiseSums {
  /** Valid readings that were offered; every third of them is fitted. */
  readonly readings: number;
  readonly line: SlopeFit;
  readonly bends: readonly BendSums[];
}

export const NO_RISE: RiseSums = {
  readings: 0,
  line: NO_POINTS,
  bends: TAUS_S.map((tauS) => ({ tauS, sumE: 0, sumEE: 0, sumET: 0, sumEP: 0 })),
};

/**
 * A reading is the median of three samples, so neighbours share two of them. Only every third is
 * new, and only new ones may count as independent in what follows.
 */
const SAMPLES_SHARED = 3;

export function addReading(sums: RiseSums, timeS: number, pressurePa: number): RiseSums {
  const readings = sums.readings + 1;
  if (readings % SAMPLES_SHARED !== 1) return { ...sums, readings };
  const line = addPoint(sums.line, timeS, pressurePa);
  const p = pressurePa - line.firstPa;
  const bends = sums.bends.map(({ tauS, sumE, sumEE, sumET, sumEP }) => {
    const e = 1 - Math.exp(-timeS / tauS);
    return {
      tauS,
      sumE: sumE + e,
      sumEE: sumEE + e * e,
      sumET: sumET + e * timeS,
      sumEP: sumEP + e * p,
    };
  });
  return { readings, line, bends };
}

/** The range of a quantity that the samples allow. */
export interface Range {
  readonly low: number;
  readonly best: number;
  readonly high: number;
}

interface Straight {
  readonly shape: 'straight';
  /** At the first point, and at the fitted moment of closing. */
  readonly firstPa: number;
  readonly startPa: number;
  readonly slopePaPerS: Range;
}

interface Bent extends Omit<Straight, 'shape'> {
  readonly shape: 'bent';
  /** Height of the plateau above the pressure at isolation. */
  readonly heightPa: Range;
  readonly tauS: number;
}

export type Rise = Straight | Bent;

/**
 * Student's t for 95 % falls below 1.985 from 95 degrees of freedom on, so the normal quantile
 * replaces it: a watch has 100 points or more.
 */
const COVERAGE_95 = 1.96;
/**
 * F of the bend's one slope-like term that chance alone hardly gives: 3.9 standard deviations, 1 in
 * 10,000. It is raised from 15 to 20 because the best of ten time constants is taken and because
 * the converter's steps leave a ripple of their own (see
 * tests/procedure/repair/seal/seal-series.test.ts).
 */
const BEND_F = 20;
/** Start, slope, height and time constant. */
const BEND_TERMS = 4;
/** Fewer points than this are no watch. */
const FEWEST_POINTS = 30;

/** Null with too few points to judge. */
export function riseOf({ line: sums, bends }: RiseSums): Rise | null {
  const line = lineOf(sums);
  if (line === null || sums.n < FEWEST_POINTS) return null;
  const fits = bends.map((bend) => fitBend(sums, bend));
  const best = fits.reduce((a, b) => (b.residualPa2 < a.residualPa2 ? b : a));
  // A noise-free perfect fit has no residuals to divide by: a tenth of a pascal replaces them.
  const variancePa2 = Math.max(best.residualPa2 / (sums.n - BEND_TERMS), 0.01);
  const f = (line.residualPa2 - best.residualPa2) / variancePa2;
  return f < BEND_F ? straight(sums, line) : bent(sums, fits, best, variancePa2);
}

function straight({ firstPa }: SlopeFit, line: Line): Straight {
  const { startPa, slopePaPerS, slopeErrorPaPerS } = line;
  const slope = around(slopePaPerS, COVERAGE_95 * slopeErrorPaPerS);
  return { shape: 'straight', firstPa, startPa, slopePaPerS: slope };
}

/** The widest ranges that any time constant allows, around the best one. */
function bent(
  { firstPa }: SlopeFit,
  fits: readonly BendFit[],
  best: BendFit,
  variancePa2: number,
): Bent {
  const ends = fits.flatMap((fit) => {
    const worse = (fit.residualPa2 - best.residualPa2) / variancePa2;
    if (worse > COVERAGE_95 * COVERAGE_95) return [];
    const reach = Math.sqrt((COVERAGE_95 * COVERAGE_95 - worse) * variancePa2);
    return [
      {
        slope: around(fit.slopePaPerS, reach * fit.slopeReach),
        height: around(fit.heightPa, reach * fit.heightReach),
      },
    ];
  });
  return {
    shape: 'bent',
    firstPa,
    startPa: firstPa + best.startPa,
    slopePaPerS: widest(
      ends.map(({ slope }) => slope),
      best.slopePaPerS,
    ),
    heightPa: widest(
      ends.map(({ height }) => height),
      best.heightPa,
    ),
    tauS: best.tauS,
  };
}

const around = (best: number, apart: number): Range => ({
  low: best - apart,
  best,
  high: best + apart,
});

const widest = (ranges: readonly Range[], best: number): Range => ({
  low: Math.min(...ranges.map(({ low }) => low)),
  best,
  high: Math.max(...ranges.map(({ high }) => high)),
});

interface BendFit {
  readonly tauS: number;
  /** At the moment of closing, relative to the first point. */
  readonly startPa: number;
  readonly slopePaPerS: number;
  readonly heightPa: number;
  readonly residualPa2: number;
  /** Standard errors for a scatter of one pascal. */
  readonly slopeReach: number;
  readonly heightReach: number;
}

/**
 * Normal equations of slope and height about the means, solved by Cramer's rule. No air leaks out
 * of a vacuum: a negative slope is set to zero, and the height is fitted again without it. Terms
 * are never parallel: the watch is longer than the settling, and the time constants are of similar
 * length.
 */
function fitBend(sums: SlopeFit, { tauS, sumE, sumEE, sumET, sumEP }: BendSums): BendFit {
  const { n, sumT, sumP } = sums;
  const { tt, tp, pp } = spreadOf(sums);
  const ee = sumEE - (sumE * sumE) / n;
  const te = sumET - (sumT * sumE) / n;
  const ep = sumEP - (sumE * sumP) / n;
  const determinant = tt * ee - te * te;
  const slope = Math.max(0, (ee * tp - te * ep) / determinant);
  const height = (ep - slope * te) / ee;
  const explained =
    2 * (slope * tp + height * ep) -
    (slope * slope * tt + 2 * slope * height * te + height * height * ee);
  return {
    tauS,
    startPa: (sumP - slope * sumT - height * sumE) / n,
    slopePaPerS: slope,
    heightPa: height,
    residualPa2: Math.max(0, pp - explained),
    slopeReach: Math.sqrt(ee / determinant),
    heightReach: Math.sqrt(tt / determinant),
  };
}
