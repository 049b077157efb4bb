import {
  inHgFromPa,
  J_PER_M2_PER_MJ_PER_CM2,
  PA_PER_INHG,
  PA_PER_PSI,
  psiFromPa,
  W_PER_M2_PER_MW_PER_CM2,
} from '../../src/units.ts';
import type { CheckGroup } from './check.ts';

const SP_811 = 'NIST SP 811:2008, App. B.8 and B.9, as quoted by secondary files';

export const UNITS: CheckGroup = {
  title: 'units',
  rows: [
    {
      what: 'one conventional inch of mercury',
      actual: () => PA_PER_INHG,
      expected: 3386.389,
      tolerance: 0.0005,
      unit: 'Pa',
      source: SP_811,
      obtained: 'seen second-hand',
    },
    {
      what: 'one psi',
      actual: () => PA_PER_PSI,
      expected: 6894.757,
      tolerance: 0.0005,
      unit: 'Pa',
      source: SP_811,
      obtained: 'seen second-hand',
    },
    {
      what: '100 kPa in psi',
      actual: () => psiFromPa(100_000),
      expected: 14.503774,
      tolerance: 5e-7,
      unit: 'psi',
      source: SP_811,
      obtained: 'seen second-hand',
    },
    {
      what: 'one atmosphere in inches of mercury',
      actual: () => inHgFromPa(101_325),
      expected: 29.921,
      tolerance: 0.0005,
      unit: 'inHg',
      source: 'quotient of 101325 Pa (exact) and 3386.389 Pa (NIST SP 811)',
      obtained: 'computed',
    },
    {
      what: '1 mW/cm2',
      actual: () => W_PER_M2_PER_MW_PER_CM2,
      expected: 10,
      tolerance: 0,
      unit: 'W/m2',
      source: 'SI prefixes, exact',
      obtained: 'computed',
    },
    {
      what: '1 mJ/cm2',
      actual: () => J_PER_M2_PER_MJ_PER_CM2,
      expected: 10,
      tolerance: 0,
      unit: 'J/m2',
      source: 'SI prefixes, exact',
      obtained: 'computed',
    },
  ],
};
