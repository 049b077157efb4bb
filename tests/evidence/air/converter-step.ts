/**
 * The effect of a converter's step on a reading and on an average of many, against closed forms and
 * sums over all codes.
 */
import { budgetOf } from '../../../src/signal/budget.ts';
import {
  converterRows,
  randomCounts,
  stepLeftAfterAveraging,
} from '../../../src/signal/converter-parts.ts';
import { DEFAULT_UNIT } from '../../configs.ts';
import type { CheckGroup, CheckRow } from '../check.ts';
import reference from '../reference/uncertainty.json' with { type: 'json' };

const LSB_MV = 5000 / 4096;

/** One part of the rows that a converter of so many mV a count adds. */
const partMV = (name: string, perCount: number): number =>
  budgetOf(converterRows(2048, perCount, DEFAULT_UNIT.uncertainty)).parts.find(
    (part) => part.name === name,
  )?.standard ?? Number.NaN;

const stepRow = ([sigma, expected]: readonly [string, number]): CheckRow => ({
  what: `left of the step after averaging, noise ${sigma} count`,
  actual: () => stepLeftAfterAveraging(Number(sigma)),
  expected,
  tolerance: 1e-8,
  unit: 'counts',
  source: 'sum over all codes, quadrature over a count: reference/uncertainty.md',
  obtained: 'independent solver',
});

export const CONVERTER_STEP: CheckGroup = {
  title: "uncertainty of a converter's step",
  rows: [
    {
      what: 'one step of an ideal 12-bit converter on 5 V',
      actual: () => partMV('converter step', LSB_MV),
      expected: 0.352387,
      tolerance: 5e-7,
      unit: 'mV',
      source: 'q/sqrt(12)',
      obtained: 'computed',
    },
    {
      what: 'signal to step of the same, full-scale sine',
      actual: () => 20 * Math.log10(5000 / (2 * Math.SQRT2) / partMV('converter step', LSB_MV)),
      expected: 6.0206 * 12 + 1.7609,
      tolerance: 0.0012,
      unit: 'dB',
      source: '6.02 N + 1.76 dB for N bits, with the digits of 20 lg 2 and 10 lg 1.5',
      obtained: 'from memory',
    },
    {
      what: 'left of the step after averaging without noise',
      actual: () => stepLeftAfterAveraging(0),
      expected: 1 / Math.sqrt(12),
      // 200 harmonics are summed and the rest integrated, which leaves 1/(24 pi^2 200^3) of 1/12.
      tolerance: 1e-8,
      unit: 'counts',
      source: 'sum of 1/n^2 is pi^2/6',
      obtained: 'computed',
    },
    ...Object.entries(reference.step).map(stepRow),
    {
      what: 'what changes from sample to sample, noise 0.5 count',
      actual: () => randomCounts(0.5) ** 2 + stepLeftAfterAveraging(0.5) ** 2,
      expected: 0.25 + 1 / 12,
      tolerance: 1e-12,
      unit: 'counts2',
      source: 'variances of noise and step add, averaged over a count',
      obtained: 'computed',
    },
    {
      what: 'noise of the middle of three samples over that of one',
      actual: () => partMV('noise', 1) / DEFAULT_UNIT.uncertainty.converter.noiseCounts,
      expected: reference.middle,
      tolerance: 1e-7,
      unit: '1',
      source: 'quadrature of the density of the middle one: reference/uncertainty.md',
      obtained: 'independent solver',
    },
  ],
};
