/**
 * The straight line of the leak test against certified and published data sets and against a fit by
 * a statistics library. The controller keeps running sums, which lose digits that a library keeps by
 * centring the data first; the tolerance is the bound on that loss.
 */
import {
  addPoint,
  type Line,
  lineOf,
  NO_POINTS,
  type SlopeFit,
} from '../../../src/procedure/leak.ts';
import type { CheckGroup, CheckRow } from '../check.ts';
import reference from '../reference/line-fit.json' with { type: 'json' };

const TICK_S = 0.05;
const UNIT_ROUNDOFF = 2 ** -53;

type Points = readonly (readonly [x: number, y: number])[];

const fitOf = (points: Points): SlopeFit =>
  points.reduce((fit, [x, y]) => addPoint(fit, x, y), NO_POINTS);

const pairs = (xs: readonly number[], ys: readonly number[]): Points =>
  xs.map((x, i) => [x, ys[i] ?? Number.NaN]);

const partOf = (points: Points, part: keyof Line): number =>
  lineOf(fitOf(points))?.[part] ?? Number.NaN;

/** Rounding of recursive sums, n u Σ|x y| at most (Higham, from memory), carried to the slope. */
function roundingOf(points: Points): number {
  const { n, sumT, sumTT } = fitOf(points);
  const products = points.reduce((sum, [x, y]) => sum + Math.abs(x * y), 0);
  return (2 * n * UNIT_ROUNDOFF * n * products) / (n * sumTT - sumT * sumT);
}

const slopeRow = (
  what: string,
  points: Points,
  expected: number,
  rest: Pick<CheckRow, 'unit' | 'source' | 'obtained'>,
  ownPrecision = 0,
): CheckRow => ({
  what: `slope of ${what}`,
  actual: () => partOf(points, 'slopePaPerS'),
  expected,
  tolerance: ownPrecision + roundingOf(points),
  ...rest,
});

/** NIST StRD, data set Norris; y, then x. */
const NORRIS_Y = [
  0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8,
  339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5,
  778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
];
const NORRIS_X = [
  0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9,
  338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0,
  779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
];

const NORRIS = {
  unit: 'of y by x',
  source: 'NIST StRD, linear regression, Norris: certified values, as quoted in test suites',
  obtained: 'seen second-hand',
} as const;
const norris = pairs(NORRIS_X, NORRIS_Y);

/** Residuals are what is left of sums of squares near 4e6, a part in 36 u of which may be lost. */
const NORRIS_RESIDUAL_ROUNDING = 36 * UNIT_ROUNDOFF * 4.3e6 * 2;

const norrisRow = (
  what: string,
  part: keyof Line,
  expected: number,
  unit: string,
  relativeRounding: number,
): CheckRow => ({
  ...NORRIS,
  what: `${what} of the data set Norris`,
  actual: () => partOf(norris, part),
  expected,
  unit,
  tolerance: Math.abs(expected) * relativeRounding,
});

const ANSCOMBE_X = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
const ANSCOMBE_X4 = [8, 8, 8, 8, 8, 8, 8, 19, 8, 8, 8];
const ANSCOMBE_Y = [
  [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68],
  [9.14, 8.14, 8.74, 8.77, 9.26, 8.1, 6.13, 3.1, 9.13, 7.26, 4.74],
  [7.46, 6.77, 12.74, 7.11, 7.81, 8.84, 6.08, 5.39, 8.15, 6.42, 5.73],
  [6.58, 5.76, 7.71, 8.84, 8.47, 7.04, 5.25, 12.5, 5.56, 7.91, 6.89],
];
const ANSCOMBE_SLOPES = [0.5001, 0.5, 0.4997, 0.4999];

const anscombeRow = (ys: readonly number[], i: number): CheckRow =>
  slopeRow(
    `Anscombe's data set ${i + 1}`,
    pairs(i === 3 ? ANSCOMBE_X4 : ANSCOMBE_X, ys),
    ANSCOMBE_SLOPES[i] ?? Number.NaN,
    {
      unit: 'of y by x',
      source: 'Anscombe, The American Statistician 27 (1973) 17-21; slopes to four digits',
      obtained: 'from memory',
    },
    5e-5,
  );

const trace = (samples: number, pressurePa: (t: number, i: number) => number): Points =>
  Array.from({ length: samples }, (_, i) => [i * TICK_S, pressurePa(i * TICK_S, i)]);

/** What looks like noise and is written the same in any language. */
const noisy = (samples: number, startPa: number, risePaPerS: number, noisePa: number): Points =>
  trace(samples, (t, i) => startPa + risePaPerS * t + noisePa * Math.sin(1000 * Math.sin(i + 1)));

const libraryRow = (what: string, points: Points, expected: number): CheckRow =>
  slopeRow(
    what,
    points,
    expected,
    {
      unit: 'Pa/s',
      source: 'reference/line-fit.md, scipy.stats.linregress of the same trace',
      obtained: 'independent solver',
    },
    // The library's own rounding, and the last digit of a sine in another language.
    1e-10,
  );

const { slopePaPerS: solved, slopeErrorPaPerS: solvedError } = reference;

const SOUND = noisy(400, 30_000, 5, 400);
const LONG = noisy(18_000, 101_325, 0.05, 500);

/** Residuals come from sums of squares: n u of those may be lost. */
const errorRow = (what: string, points: Points, expected: number): CheckRow => {
  const first = points[0]?.[1] ?? 0;
  const squares = points.reduce((sum, [, y]) => sum + (y - first) ** 2, 0);
  const relative = (2 * points.length * UNIT_ROUNDOFF * squares) / partOf(points, 'residualPa2');
  return {
    what: `standard error of the slope of ${what}`,
    actual: () => partOf(points, 'slopeErrorPaPerS'),
    expected,
    tolerance: expected * relative,
    unit: 'Pa/s',
    source: 'reference/line-fit.md, scipy.stats.linregress of the same trace',
    obtained: 'independent solver',
  };
};

export const LINE_FIT: CheckGroup = {
  title: 'straight line of the leak test',
  rows: [
    slopeRow('the data set Norris', norris, 1.00211681802045, NORRIS, 5e-15),
    // The mean of y less the slope times the mean of x, both near 400: their rounding, not the slope's.
    norrisRow(
      'intercept',
      'startPa',
      -0.262323073774029,
      'of y',
      (36 * UNIT_ROUNDOFF * 430 * 4) / 0.26,
    ),
    norrisRow(
      'sum of squared residuals',
      'residualPa2',
      26.6173985294224,
      'of y²',
      NORRIS_RESIDUAL_ROUNDING / 26.6,
    ),
    norrisRow(
      'standard error of the slope',
      'slopeErrorPaPerS',
      4.29796848199937e-4,
      'of y by x',
      NORRIS_RESIDUAL_ROUNDING / 26.6 / 2,
    ),
    ...ANSCOMBE_Y.map(anscombeRow),
    libraryRow(
      '20 s of a sound seal, noise of a converter step',
      noisy(400, 30_000, 5, 400),
      solved.sound,
    ),
    libraryRow('20 s of a leaking seal', noisy(400, 30_000, 250, 400), solved.leaking),
    libraryRow('15 min near the atmosphere', LONG, solved.long),
    errorRow('20 s of a sound seal', SOUND, solvedError.sound),
    errorRow('15 min near the atmosphere', LONG, solvedError.long),
    libraryRow('three samples', noisy(3, 20_000, 1, 300), solved.few),
    libraryRow(
      'a rise that bends, time constant 40 s',
      trace(400, (t) => 101_325 + (30_000 - 101_325) * Math.exp(-t / 40)),
      solved.bent,
    ),
  ],
};
