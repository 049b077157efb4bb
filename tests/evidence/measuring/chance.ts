/**
 * The simulator's chance against the distributions that it claims. Every tolerance is four standard
 * errors of the estimate from so many draws, so a sound generator fails one row in sixteen thousand.
 */
import { type Chance, createChance } from '../../../sim/random.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';

const MANY = 200_000;
const SEED = 20;
const ERRORS = 4;
const FOUR_ERRORS = 'Nought is expected; the tolerance is four standard errors of the estimate.';

type Purpose = Parameters<typeof createChance>[1];

const drawn = new Map<string, readonly number[]>();

/** Drawn once for all rows. */
function draws(draw: keyof Chance, purpose: Purpose = 'noise'): readonly number[] {
  const key = `${draw} ${purpose}`;
  const chance = createChance(SEED, purpose);
  const values = drawn.get(key) ?? Array.from({ length: MANY }, () => chance[draw]());
  drawn.set(key, values);
  return values;
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Mean of a power of the distance from `centre`. */
const moment = (values: readonly number[], centre: number, power: number): number =>
  meanOf(values.map((value) => (value - centre) ** power));

const within = (sigmas: number): number =>
  meanOf(draws('gaussian').map((value) => (Math.abs(value) < sigmas ? 1 : 0)));

/** Mean of products of two rows of normal values; both have mean 0 and deviation 1. */
const togetherness = (a: readonly number[], b: readonly number[]): number =>
  meanOf(a.slice(0, b.length).map((value, i) => value * (b[i] ?? Number.NaN)));

/** `deviation` is that of one draw's contribution to the estimate. */
const row = (
  what: string,
  actual: () => number,
  expected: number,
  deviation: number,
  unit: string,
): CheckRow => ({
  what,
  actual,
  expected,
  tolerance: (ERRORS * deviation) / Math.sqrt(MANY),
  unit,
  source: 'moments of the distribution, closed form; tolerance of four standard errors',
  obtained: 'computed',
  ...(expected === 0 ? { why: FOUR_ERRORS } : {}),
});

const tableRow = (sigmas: number, share: number): CheckRow => ({
  ...row(
    `share of normal draws within ${sigmas} σ`,
    () => within(sigmas),
    share,
    Math.sqrt(share * (1 - share)),
    'of all',
  ),
  source: 'table of the normal distribution; tolerance of four standard errors',
  obtained: 'from memory',
});

const BIN = 0.2;
const BINS = Array.from({ length: 41 }, (_, i) => (i - 20) * BIN);

function plots(): readonly Plot[] {
  const found = draws('gaussian');
  const density = (x: number): number =>
    found.filter((value) => Math.abs(value - x) < BIN / 2).length / (MANY * BIN);
  return [
    {
      title: 'Density of the normal draws',
      xLabel: 'draw, in standard deviations',
      yLabel: 'density',
      scale: 'log y',
      lines: [{ label: `${MANY} draws in bins of ${BIN}`, x: BINS, y: BINS.map(density) }],
      points: [
        {
          label: 'exp(-x²/2)/√(2π)',
          x: BINS,
          y: BINS.map((x) => Math.exp(-x * x * 0.5) / Math.sqrt(2 * Math.PI)),
        },
      ],
    },
  ];
}

export const CHANCE: CheckGroup = {
  title: 'chance of the simulator',
  rows: [
    row('mean of normal draws', () => meanOf(draws('gaussian')), 0, 1, 'σ'),
    row('their variance', () => moment(draws('gaussian'), 0, 2), 1, Math.SQRT2, 'σ²'),
    row('their third moment', () => moment(draws('gaussian'), 0, 3), 0, Math.sqrt(15), 'σ³'),
    row('their fourth moment', () => moment(draws('gaussian'), 0, 4), 3, Math.sqrt(96), 'σ⁴'),
    tableRow(1, 0.682689),
    tableRow(2, 0.9545),
    tableRow(3, 0.9973),
    row('mean of uniform draws', () => meanOf(draws('uniform')), 0.5, Math.sqrt(1 / 12), 'of 1'),
    row(
      'their variance ',
      () => moment(draws('uniform'), 0.5, 2),
      1 / 12,
      Math.sqrt(1 / 80 - 1 / 144),
      'of 1',
    ),
    row(
      'what one normal draw tells of the next',
      () => togetherness(draws('gaussian'), draws('gaussian').slice(1)),
      0,
      1,
      'correlation',
    ),
    row(
      'what one purpose tells of another',
      () => togetherness(draws('gaussian'), draws('gaussian', 'break')),
      0,
      1,
      'correlation',
    ),
  ],
  plots,
};
