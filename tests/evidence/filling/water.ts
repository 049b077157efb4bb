import { kFromCelsius } from '../../../src/core/units.ts';
import { waterSaturationPa } from '../../../src/core/water.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

/** C and kPa. */
const TABLE: readonly (readonly [celsius: number, kPa: number])[] = [
  [0, 0.61129],
  [5, 0.8726],
  [10, 1.2281],
  [15, 1.7056],
  [20, 2.3388],
  [23, 2.8104],
  [25, 3.169],
  [30, 4.2455],
  [35, 5.6267],
  [40, 7.3814],
  [45, 9.5895],
  [50, 12.344],
];
/** The formula's own error by its authors, -40 to 50 C (from memory). */
const FORMULA_RATIO = 0.004;
const LAST_DIGIT_KPA = 5e-4;

const kPaAt = (celsius: number): number => waterSaturationPa(kFromCelsius(celsius)) / 1000;

const row = ([celsius, kPa]: readonly [number, number]): CheckRow => ({
  what: `saturation pressure of water at ${celsius} C`,
  actual: () => kPaAt(celsius),
  expected: kPa,
  tolerance: FORMULA_RATIO * kPa + (kPa < 10 ? LAST_DIGIT_KPA / 10 : LAST_DIGIT_KPA),
  unit: 'kPa',
  source:
    'CRC Handbook of Chemistry and Physics, 73rd ed. (1992-93), as quoted by a secondary page',
  obtained: 'seen second-hand',
});

export const WATER_IN_THE_SEAL_TEST: CheckGroup = {
  title: 'water in the seal test',
  rows: TABLE.map(row),
  plots: () => {
    const celsius = Array.from({ length: 51 }, (_, i) => i);
    return [
      {
        title: 'saturation pressure of water, as the seal test has it',
        xLabel: 'temperature, C',
        yLabel: 'kPa',
        scale: 'log y',
        lines: [{ label: 'controller', x: celsius, y: celsius.map(kPaAt) }],
        points: [{ label: 'CRC Handbook', x: TABLE.map(([c]) => c), y: TABLE.map(([, p]) => p) }],
      },
    ];
  },
};
