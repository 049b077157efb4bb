/**
 * The plant's saturation pressure of water against steam tables, the release that is the source of
 * its formula, and a formula of another kind.
 */
import { saturationPa } from '../../../sim/plant/break/moisture.ts';
import { kFromCelsius } from '../../../src/core/units.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';

/** kPa, as tables print them. Editions differ by a unit of the last digit, and half a one is rounding. */
const STEAM_TABLE: readonly (readonly [celsius: number, kPa: number, lastDigit: number])[] = [
  [5, 0.8726, 1e-4],
  [10, 1.2282, 1e-4],
  [15, 1.7058, 1e-4],
  [20, 2.3393, 1e-4],
  [25, 3.1699, 1e-4],
  [30, 4.247, 1e-3],
  [40, 7.385, 1e-3],
  [50, 12.352, 1e-3],
  [60, 19.947, 1e-3],
];

const tableRows = STEAM_TABLE.map(
  ([celsius, expected, lastDigit]): CheckRow => ({
    what: `saturation pressure of water in the plant at ${celsius} °C`,
    actual: () => saturationPa(kFromCelsius(celsius)) / 1000,
    expected,
    tolerance: 1.5 * lastDigit,
    unit: 'kPa',
    source: 'steam tables after IAPWS-95 (from memory; 1.5 units of the last digit)',
    obtained: 'from memory',
  }),
);

const releaseRow = (
  kelvin: number,
  expected: number,
  tolerance: number,
  what: string,
): CheckRow => ({
  what: `saturation pressure of water in the plant at ${what}`,
  actual: () => saturationPa(kelvin),
  expected,
  tolerance,
  unit: 'Pa',
  source: 'IAPWS SR1-86(1992), value of the release (from memory)',
  obtained: 'from memory',
});

/** Buck 1981 in its form of 1996, Pa. */
const buckPa = (celsius: number): number =>
  611.21 * Math.exp(((18.678 - celsius / 234.5) * celsius) / (257.14 + celsius));

/** Buck gives 0.05 % for his formula between -20 and 50 °C; the release's own 0.025 % comes to it. */
const buckRows = [0.01, 20, 40, 50].map(
  (celsius): CheckRow => ({
    what: `saturation pressure of water in the plant at ${celsius} °C over that of Buck`,
    actual: () => saturationPa(kFromCelsius(celsius)) / buckPa(celsius),
    expected: 1,
    tolerance: 0.00075,
    unit: 'of 1',
    source: 'Buck 1981, J. Appl. Meteorol. 20, 1527 (form of 1996, from memory)',
    obtained: 'computed',
  }),
);

function curve(): Plot {
  const x = Array.from({ length: 61 }, (_, i) => i);
  return {
    title: 'saturation pressure of water',
    xLabel: 'temperature in °C',
    yLabel: 'pressure in kPa',
    lines: [{ label: 'plant', x, y: x.map((c) => saturationPa(kFromCelsius(c)) / 1000) }],
    points: [
      {
        label: 'steam tables',
        x: STEAM_TABLE.map(([celsius]) => celsius),
        y: STEAM_TABLE.map(([, kPa]) => kPa),
      },
    ],
  };
}

export const WATER_VAPOUR: CheckGroup = {
  title: 'saturation pressure of water in the plant',
  rows: [
    ...tableRows,
    releaseRow(273.16, 611.657, 0.001, 'the triple point'),
    releaseRow(373.1243, 101_325, 2, 'the normal boiling point, 373.1243 K'),
    ...buckRows,
  ],
  plots: () => [curve()],
};
