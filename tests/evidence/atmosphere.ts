/** Pressure at height, against the US Standard Atmosphere 1976 by geopotential height. */
import { standardAtmospherePa } from '../../sim/plant/atmosphere.ts';
import type { CheckGroup, CheckRow } from './check.ts';

const SOURCE = 'US Standard Atmosphere 1976, geopotential height';

/** Printed to 0.1 Pa; the last digit may be one off between roundings of the constants. */
const row = (heightM: number, expected: number, obtained: CheckRow['obtained']): CheckRow => ({
  what: `pressure at ${heightM} m`,
  actual: () => standardAtmospherePa(heightM),
  expected,
  tolerance: heightM === 0 ? 0 : 0.2,
  unit: 'Pa',
  source: obtained === 'computed' ? `${SOURCE}, p0 (1 - L H / T0)^5.25588` : SOURCE,
  obtained,
});

export const ATMOSPHERE: CheckGroup = {
  title: 'US Standard Atmosphere 1976',
  rows: [
    row(0, 101_325, 'seen second-hand'),
    row(500, 95_460.8, 'computed'),
    row(1000, 89_874.6, 'seen second-hand'),
    row(1609.344, 83_427.6, 'computed'),
    row(2000, 79_495.2, 'seen second-hand'),
    row(2500, 74_682.5, 'computed'),
  ],
};
