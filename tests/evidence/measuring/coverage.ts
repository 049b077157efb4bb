/**
 * Coverage factors against printed tables and against quadrature of the density, and the effect of
 * guarded acceptance: how often a dose that is truly of a given size would be reported as met.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { cureDone } from '../../../src/cure/dose.ts';
import { coverageFactor, shareWithin } from '../../../src/signal/student-t.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';
import reference from '../reference/uncertainty.json' with { type: 'json' };

const TABLE =
  "upper critical values of Student's t, NIST/SEMATECH e-Handbook of Statistical Methods, as quoted by a secondary page";

/** Half of the last printed digit. */
const tableRow = (upperTail: number, degrees: number, expected: number): CheckRow => ({
  what: `t with ${degrees} degrees of freedom, ${upperTail} above`,
  actual: () => coverageFactor(1 - upperTail, degrees, 'one-sided'),
  expected,
  tolerance: 0.0005001,
  unit: '1',
  source: TABLE,
  obtained: 'seen second-hand',
});

const quadratureRow = ([degrees, expected]: readonly [string, number]): CheckRow => ({
  what: `k of 95 %, two-sided, with ${degrees} degrees of freedom`,
  actual: () => coverageFactor(0.95, Number(degrees), 'two-sided'),
  expected,
  // Asked of the quadrature: 1e-13 of the share, which the density at k magnifies up to 1e3 times.
  tolerance: 1e-9,
  unit: '1',
  source: 'quadrature of the density and a root finder: reference/uncertainty.md',
  obtained: 'independent solver',
});

const INFINITE = Number.POSITIVE_INFINITY;

export const COVERAGE: CheckGroup = {
  title: 'coverage factors',
  rows: [
    tableRow(0.025, 1, 12.706),
    tableRow(0.005, 1, 63.657),
    tableRow(0.001, 2, 22.327),
    tableRow(0.025, 5, 2.571),
    tableRow(0.05, 10, 1.812),
    tableRow(0.005, 16, 2.921),
    tableRow(0.005, 30, 2.75),
    tableRow(0.025, 100, 1.984),
    tableRow(0.05, INFINITE, 1.645),
    tableRow(0.001, INFINITE, 3.09),
    ...Object.entries(reference.t).map(quadratureRow),
  ],
};

const TARGET = { targetJPerM2: 60_000, leastS: 1, longestS: 600 };
const GAIN = 0.03;
const K = coverageFactor(0.95, INFINITE, 'one-sided');
const DOUBT = { gainRatio: GAIN, biasRatio: 0, zeroWPerM2: 0, randomWPerM2: 0, coverageFactor: K };
const DRAWS = 100_000;

/** How often the cure counts as done at a true dose, as the sensor's gain errs from unit to unit. */
function acceptedRatio(trueOverTarget: number): number {
  const generator = xoroshiro128plus(7);
  let accepted = 0;
  for (let i = 0; i < DRAWS; i++) {
    const [u, v] = [uniformFloat64(generator), uniformFloat64(generator)];
    const z = Math.sqrt(-2 * Math.log(1 - u)) * Math.cos(2 * Math.PI * v);
    const doseJPerM2 = TARGET.targetJPerM2 * trueOverTarget * (1 + GAIN * z);
    const dose = { doseJPerM2, lampOnS: 300, pieces: 0, lastWPerM2: 200 };
    if (cureDone(dose, TARGET, DOUBT)) accepted += 1;
  }
  return accepted / DRAWS;
}

const acceptRow = ([ratio, expected]: readonly [string, number]): CheckRow => ({
  what: `told as met at a true dose of ${ratio} times its target`,
  actual: () => acceptedRatio(Number(ratio)),
  expected,
  // Four standard errors of a share found from so many draws.
  tolerance: 4 * Math.sqrt((expected * (1 - expected)) / DRAWS),
  unit: '1',
  source:
    'guarded acceptance of JCGM 106:2012 (from memory) in closed form: reference/uncertainty.md',
  obtained: 'independent solver',
});

/** Share of a normal distribution below z. */
const below = (z: number): number => 0.5 + (Math.sign(z) * shareWithin(Math.abs(z), INFINITE)) / 2;

export const GUARD_BAND: CheckGroup = {
  title: 'guarded acceptance',
  rows: [
    ...Object.entries(reference.accepted).map(acceptRow),
    {
      what: 'told as met where a fixed k u is kept and the true value is at the limit',
      actual: () => 1 - below(K),
      expected: 0.05,
      tolerance: 1e-9,
      unit: '1',
      source: 'definition of one-sided 95 %: one in twenty',
      obtained: 'computed',
    },
    {
      what: 'probability that 13.6 with u 1.8 lies between 12.5 and 16.3',
      actual: () => below((16.3 - 13.6) / 1.8) - below((12.5 - 13.6) / 1.8),
      // N(1.5) - N(-0.6111) by the printed table of the normal distribution, 0.93319 - 0.27056.
      expected: 0.66263,
      tolerance: 2e-5,
      unit: '1',
      source: 'numbers of JCGM 106:2012, 7.4, as quoted by a secondary page; its answer computed',
      obtained: 'computed',
    },
  ],
  plots: () => [acceptancePlot()],
};

function acceptancePlot(): Plot {
  const x = Array.from({ length: 33 }, (_, i) => 0.96 + 0.006 * i);
  const known = Object.entries(reference.accepted);
  return {
    title: 'How often a dose is told as met',
    xLabel: 'true dose over its target',
    yLabel: 'share of cures told as met',
    lines: [{ label: 'controller, seeded draws', x, y: x.map(acceptedRatio) }],
    points: [
      {
        label: 'closed form',
        x: known.map(([ratio]) => Number(ratio)),
        y: known.map(([, share]) => share),
      },
    ],
  };
}
