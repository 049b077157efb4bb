/**
 * The greatest vacuum that an altitude allows, as a gauge in inches of mercury shows it: for a
 * perfect pump that is all of the air, for this unit what its ratio and margin leave of it.
 */
import { standardAtmospherePa } from '../../../sim/plant/air/atmosphere.ts';
import { inHgFromPa } from '../../../src/core/units.ts';
import { deepestPa } from '../../../src/procedure/altitude.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

const PERFECT_RATIO = 1e12;
const DEMO_RATIO = 12.5;
const FOOT_M = 0.3048;
/** Half of the last digit shown, and 0.2 Pa of the tables. */
const TOLERANCE_INHG = 0.0006;
const USSA = 'US Standard Atmosphere 1976 (geopotential height)';

const greatestInHg = (heightM: number, ratio: number): number => {
  const airPa = standardAtmospherePa(heightM);
  return inHgFromPa(airPa - deepestPa(airPa, ratio));
};

const perfectRow = (
  heightM: number,
  expected: number,
  obtained: CheckRow['obtained'],
): CheckRow => ({
  what: `greatest vacuum that the air allows at ${heightM} m`,
  actual: () => greatestInHg(heightM, PERFECT_RATIO),
  expected,
  tolerance: TOLERANCE_INHG,
  unit: 'inHg',
  source: `${USSA} by 3386.389 Pa (NIST SP 811)`,
  obtained,
});

/** Air by table, Pa; of it 1 - 1.2/12.5 = 0.904 can be drawn. */
const demoRow = (heightM: number, airPa: number): CheckRow => ({
  what: `greatest vacuum of the demo pump at ${heightM} m`,
  actual: () => greatestInHg(heightM, DEMO_RATIO),
  expected: (0.904 * airPa) / 3386.389,
  tolerance: TOLERANCE_INHG,
  unit: 'inHg',
  source: `${USSA}: ${airPa} Pa, times 1 less margin over ratio`,
  obtained: 'computed',
});

export const VACUUM_BY_ALTITUDE: CheckGroup = {
  title: 'greatest vacuum by altitude',
  rows: [
    perfectRow(0, 29.921, 'computed'),
    perfectRow(500, 28.19, 'computed'),
    perfectRow(1000, 26.54, 'computed'),
    perfectRow(1609.344, 24.636, 'computed'),
    perfectRow(2000, 23.475, 'computed'),
    perfectRow(2500, 22.054, 'computed'),
    demoRow(0, 101_325),
    demoRow(1000, 89_874.6),
    demoRow(2000, 79_495.2),
    {
      what: 'vacuum lost over the first 1000 feet',
      actual: () => greatestInHg(0, PERFECT_RATIO) - greatestInHg(1000 * FOOT_M, PERFECT_RATIO),
      expected: 1,
      tolerance: 0.1,
      unit: 'inHg',
      source: 'rule of thumb of vacuum trades, an inch of mercury a thousand feet, to a digit',
      obtained: 'common practice',
    },
  ],
  plots: () => {
    const heights = Array.from({ length: 31 }, (_, i) => 100 * i);
    const line = (label: string, ratio: number) => ({
      label,
      x: heights,
      y: heights.map((heightM) => greatestInHg(heightM, ratio)),
    });
    return [
      {
        title: 'greatest vacuum by altitude',
        xLabel: 'height, m',
        yLabel: 'inHg of vacuum, gauge',
        lines: [line('perfect pump', PERFECT_RATIO), line('demo pump', DEMO_RATIO)],
        points: [
          {
            label: 'standard atmosphere',
            x: [0, 1000, 2000],
            y: [29.921, 26.54, 23.475],
          },
        ],
      },
    ];
  },
};
