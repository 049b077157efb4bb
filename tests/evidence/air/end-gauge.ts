/**
 * The budget against the end-gauge calibration of the GUM, example H.1: the whole way from inputs to
 * the expanded uncertainty; and where first order is known to fall short of the truth.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { type BudgetInput, budgetOf } from '../../../src/signal/budget.ts';
import { coverageFactor } from '../../../src/signal/student-t.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

/** l = ls + d - ls (da theta + as dtheta); lengths in nm, temperatures in C. */
const LS_NM = 50_000_623;
const AS_PER_C = 11.5e-6;
const THETA_C = -0.1;

type Given = Pick<BudgetInput, 'name' | 'spread' | 'sensitivity' | 'degreesOfFreedom'> &
  Partial<BudgetInput>;
const input = (given: Given): BudgetInput => ({
  value: 0,
  unit: 'nm',
  kind: 'B',
  distribution: 'normal',
  ...given,
});

/** Of the difference of the two gauges: repeated readings, the comparator's random and steady errors. */
const DIFFERENCE = budgetOf([
  input({ name: 'readings', spread: 5.8, sensitivity: 1, degreesOfFreedom: 24 }),
  input({ name: 'comparator, random', spread: 3.9, sensitivity: 1, degreesOfFreedom: 5 }),
  input({ name: 'comparator, steady', spread: 6.7, sensitivity: 1, degreesOfFreedom: 8 }),
]);

/** Half-widths 1e-6/C and 0.05 C give the standard 0.58e-6/C and 0.029 C of the example. */
const GAUGE = budgetOf([
  input({ name: 'standard', spread: 25, sensitivity: 1, degreesOfFreedom: 18 }),
  input({
    name: 'difference',
    spread: DIFFERENCE.standard,
    sensitivity: 1,
    degreesOfFreedom: DIFFERENCE.degreesOfFreedom,
  }),
  input({
    name: 'difference in expansion',
    spread: 1e-6,
    distribution: 'rectangular',
    sensitivity: -LS_NM * THETA_C,
    degreesOfFreedom: 50,
  }),
  input({
    name: 'difference in temperature',
    spread: 0.05,
    distribution: 'rectangular',
    sensitivity: -LS_NM * AS_PER_C,
    degreesOfFreedom: 2,
  }),
]);

/** Effective degrees of freedom are cut to whole ones, as the example does (G.4.1). */
const K99 = coverageFactor(0.99, Math.floor(GAUGE.degreesOfFreedom), 'two-sided');

const DRAWS = 200_000;
/** Standard deviation of the length over the whole model, products and all. */
function drawnNm(): number {
  const generator = xoroshiro128plus(1);
  const uniform = (): number => uniformFloat64(generator);
  const normal = (sd: number): number =>
    sd * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const limit = (half: number): number => half * (2 * uniform() - 1);
  // The bench's temperature cycles within +-0.5 C as a sine about a mean known to 0.2 C.
  const theta = (): number => THETA_C + normal(0.2) + 0.5 * Math.sin(2 * Math.PI * uniform());
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < DRAWS; i++) {
    const [ls, d] = [LS_NM + normal(25), normal(DIFFERENCE.standard)];
    const expansion = limit(1e-6) * theta() + (AS_PER_C + limit(2e-6)) * limit(0.05);
    const off = ls + d - ls * expansion - LS_NM;
    sum += off;
    squares += off * off;
  }
  return Math.sqrt(squares / DRAWS - (sum / DRAWS) ** 2);
}

const H1 = 'JCGM 100:2008 (GUM), example H.1, as quoted by a secondary page';
const row = (
  what: string,
  actual: () => number,
  expected: number,
  tolerance: number,
  rest: Partial<CheckRow> = {},
): CheckRow => ({
  what,
  actual,
  expected,
  tolerance,
  unit: 'nm',
  source: H1,
  obtained: 'seen second-hand',
  ...rest,
});
const part = (name: string) => (): number =>
  GAUGE.parts.find((each) => each.name === name)?.standard ?? Number.NaN;

export const END_GAUGE: CheckGroup = {
  title: 'uncertainty budget: end gauge of the GUM',
  rows: [
    row('u of the difference of the gauges', () => DIFFERENCE.standard, 9.7, 0.05),
    row('its degrees of freedom', () => DIFFERENCE.degreesOfFreedom, 25.6, 0.2, { unit: '1' }),
    row('part of the difference in expansion', part('difference in expansion'), 2.9, 0.05),
    // The example rounds 0.0289 C to 0.029 C on the way to 16.6 nm.
    row('part of the difference in temperature', part('difference in temperature'), 16.6, 0.1),
    row('combined standard uncertainty', () => GAUGE.standard, 32, 0.5),
    // 16.7 with the combined 32 nm rounded before its fourth power; 31.5 to 32 gives 16.2 to 17.3.
    row('effective degrees of freedom', () => GAUGE.degreesOfFreedom, 16.7, 0.5, { unit: '1' }),
    row('coverage factor of 99 %', () => K99, 2.92, 0.005, { unit: '1' }),
    // The example multiplies 2.92 by 32 nm, which is rounded by up to 0.5 nm.
    row('expanded uncertainty of 99 %', () => K99 * GAUGE.standard, 93, 2.92 * 0.5),
    row('standard uncertainty with the terms of second order', drawnNm, 34, 0.5, {
      source: 'JCGM 100:2008, H.1.7, against draws of the whole model (seeded)',
      obtained: 'from memory',
    }),
    row('the same by first order', () => GAUGE.standard, 34, 0.5, {
      source: 'JCGM 100:2008, H.1.7',
      obtained: 'from memory',
      misses: 'first order leaves out products of inputs whose estimates are 0: 2 nm too little',
    }),
  ],
};
