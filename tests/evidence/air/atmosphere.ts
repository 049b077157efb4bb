/**
 * Pressure at altitude, against the US Standard Atmosphere 1976 by geopotential height: its printed
 * table, and its differential equation integrated independently of the model, which uses the closed
 * form.
 */
import { standardAtmospherePa } from '../../../sim/plant/air/atmosphere.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';
import hydrostatics from '../reference/hydrostatics.json' with { type: 'json' };

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

/** The solver's own relative tolerance is 1e-12 a step; a thousandth of a pascal is far above it. */
const SOLVER_PA = 1e-3;

const solvedRow = (heightM: number, i: number): CheckRow => ({
  what: `pressure at ${heightM} m by the hydrostatic equation`,
  actual: () => standardAtmospherePa(heightM),
  expected: hydrostatics.pressurePa[i] ?? Number.NaN,
  tolerance: SOLVER_PA,
  unit: 'Pa',
  source: 'reference/hydrostatics.md, dp/dH = -p g0 M/(R T), constants of the standard',
  obtained: 'independent solver',
});

const LAYER_M = Array.from({ length: 131 }, (_, i) => -2000 + i * 100);

const plots = (): readonly Plot[] => [
  {
    title: 'Pressure at height',
    xLabel: 'geopotential height, m',
    yLabel: 'pressure, Pa',
    lines: [{ label: 'model, closed form', x: LAYER_M, y: LAYER_M.map(standardAtmospherePa) }],
    points: [
      {
        label: 'hydrostatic equation, solved',
        x: hydrostatics.heightM,
        y: hydrostatics.pressurePa,
      },
      {
        label: "the standard's table",
        x: [0, 1000, 2000, 11_000],
        y: [101_325, 89_874.6, 79_495.2, 22_632.1],
      },
    ],
  },
];

export const ATMOSPHERE: CheckGroup = {
  title: 'US Standard Atmosphere 1976',
  rows: [
    row(0, 101_325, 'seen second-hand'),
    row(500, 95_460.8, 'computed'),
    row(1000, 89_874.6, 'seen second-hand'),
    row(1609.344, 83_427.6, 'computed'),
    row(2000, 79_495.2, 'seen second-hand'),
    row(2500, 74_682.5, 'computed'),
    row(11_000, 22_632.1, 'from memory'),
    ...hydrostatics.heightM.map(solvedRow),
  ],
  plots,
};
