/**
 * Trends of the unit's own care and the day on which they reach a limit, against a statistics
 * library and a root finder. The unit uses closed forms, the library its own method; both round.
 */
import { crossingOf, type Trend, trendOf } from '../../../src/care/trend.ts';
import { coverageFactor } from '../../../src/signal/student-t.ts';
import type { CheckGroup, CheckRow } from '../check.ts';
import reference from '../reference/care-trend.json' with { type: 'json' };

const tFactor = (degrees: number): number => coverageFactor(0.95, degrees, 'two-sided');

interface Series {
  readonly what: string;
  readonly solved: keyof typeof reference;
  readonly shape: readonly [
    readings: number,
    step: number,
    start: number,
    slope: number,
    scatter: number,
  ];
  readonly limit: number;
}

const SERIES: readonly Series[] = [
  {
    what: 'a lamp in steady decline',
    solved: 'declining',
    shape: [12, 30, 200, -0.1, 1],
    limit: 120,
  },
  { what: 'a lamp with few readings', solved: 'few', shape: [5, 20, 198, -0.3, 4], limit: 120 },
  { what: 'a rising leak', solved: 'rising', shape: [8, 14, 8, 0.05, 0.6], limit: 60 },
  { what: 'a pump without a trend', solved: 'flat', shape: [9, 30, 2, 0.0001, 0.05], limit: 10 },
];

function trend({ shape: [readings, step, start, slope, scatter] }: Series): Trend | null {
  const points = Array.from({ length: readings }, (_, i) => ({
    x: step * i,
    y: start + slope * step * i + scatter * Math.sin(1000 * Math.sin(i + 1)),
  }));
  return trendOf(points, tFactor);
}

// Rounding of both, of t's own search, and the last digit of a sine in another language.
const RELATIVE = 1e-9;

const row = (series: Series, what: string, actual: () => number, expected: number): CheckRow => ({
  what: `${series.what}: ${what}`,
  actual,
  expected,
  tolerance: RELATIVE * Math.max(Math.abs(expected), 1e-3),
  unit: what.startsWith('slope') ? 'a day' : 'days',
  source: 'reference/care-trend.md, scipy.stats and scipy.optimize',
  obtained: 'independent solver',
});

const rowsOf = (series: Series): readonly CheckRow[] => {
  const solved: Readonly<Record<string, number>> = reference[series.solved];
  const crossing = () => {
    const found = trend(series);
    return found === null ? null : crossingOf(found, series.limit, tFactor);
  };
  const ACTUALS: Readonly<Record<string, readonly [string, () => number]>> = {
    slope: ['slope', () => trend(series)?.slope ?? Number.NaN],
    slopeHalfWidth: [
      'slope, half of its 95 % range',
      () => trend(series)?.slopeHalfWidth ?? Number.NaN,
    ],
    crossing: ['reaches its limit', () => crossing()?.x ?? Number.NaN],
    from: ['may reach it from', () => crossing()?.from ?? Number.NaN],
    to: ['may reach it until', () => crossing()?.to ?? Number.NaN],
  };
  return Object.entries(ACTUALS).flatMap(([name, [what, actual]]) => {
    const expected = solved[name];
    return expected === undefined ? [] : [row(series, what, actual, expected)];
  });
};

export const CARE_TREND: CheckGroup = {
  title: "trends of the unit's own care",
  rows: SERIES.flatMap(rowsOf),
};
