import { thermistorOhm } from '../../../sim/board/sensors.ts';
import { FULL_SCALE_COUNTS } from '../../../src/core/frame.ts';
import { celsiusFromK, kFromCelsius } from '../../../src/core/units.ts';
import { pressurePaOf, steinhartHartK } from '../../../src/signal/channels.ts';
import { DEFAULT_UNIT } from '../../configs.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';

const PUBLISHED = { a: 1.104505e-3, b: 2.38861e-4, c: 6.95361e-8 };
const MANUAL =
  'resistance table A.1 of a laser-diode temperature controller manual (0, 20, 50 C fix the three coefficients)';

/** Rows that the fit did not use; the page states residuals of up to 0.001 K at these points. */
const fitRow = (celsius: number, ohm: number, tolerance: number) => ({
  what: `thermistor of ${ohm} ohm`,
  actual: () => celsiusFromK(steinhartHartK(ohm, PUBLISHED)),
  expected: celsius,
  tolerance,
  unit: 'C',
  source: MANUAL,
  obtained: 'seen' as const,
});

/** Said of rows whose expected value is nought. */
const atZero = (expected: number): Pick<CheckRow, 'why'> =>
  expected === 0 ? { why: 'nought is expected; the tolerance is that of the rows beside it' } : {};

/** A temperature probe's own constants, and rows of its resistance table, printed to 0.01 C. */
const PROBE = { a: 1.129241e-3, b: 2.341077e-4, c: 8.775468e-8 };
const PROBE_TABLE = [
  [-40, 336_103.2],
  [-20, 97_006.9],
  [-10, 55_303.9],
  [0, 32_650.9],
  [1, 31_030.8],
] as const;
const probeRow = ([celsius, ohm]: readonly [number, number]): CheckRow => ({
  what: `10 kohm probe at ${ohm} ohm`,
  actual: () => celsiusFromK(steinhartHartK(ohm, PROBE)),
  expected: celsius,
  tolerance: 0.005,
  unit: 'C',
  source: 'resistance table C-1 and coefficients of a temperature probe manual',
  obtained: 'seen',
  ...atZero(celsius),
});

/** Ratio to the resistance at 25 C, and by how many per cent parts of the kind may deviate. */
const MATERIAL_TABLE = [
  [-20, 9.681, 1.72],
  [0, 3.264, 0.89],
  [10, 1.99, 0.52],
  [20, 1.249, 0.17],
  [30, 0.8056, 0.16],
  [50, 0.3601, 0.77],
  [60, 0.2487, 1.05],
  [85, 0.107, 1.69],
  [100, 0.06781, 2.04],
] as const;
const MATERIAL = 'resistance-temperature curve of a thermistor material with B25/85 = 3977 K';
const materialRow = ([celsius, ratio, percent]: (typeof MATERIAL_TABLE)[number]): CheckRow => ({
  what: `simulated thermistor at ${celsius} C over that at 25 C`,
  actual: () => thermistorOhm(kFromCelsius(celsius)) / thermistorOhm(298.15),
  expected: ratio,
  tolerance: (percent / 100) * ratio,
  unit: 'ratio',
  source: `${MATERIAL}; tolerance: the table's own deviation of ${percent} %`,
  obtained: 'seen',
});

/** The beta equation is Steinhart and Hart's without the cube; resistances to 0.1 ohm. */
const betaRow = (beta: number, celsius: number, ohm: number): CheckRow => ({
  what: `beta ${beta} K, ${ohm} ohm`,
  actual: () =>
    celsiusFromK(
      steinhartHartK(ohm, { a: 1 / 298.15 - Math.log(10_000) / beta, b: 1 / beta, c: 0 }),
    ),
  expected: celsius,
  tolerance: (0.05 / ohm) * (kFromCelsius(celsius) ** 2 / beta),
  unit: 'C',
  source: 'R = R25 exp(B (1/T - 1/298.15 K)), 10 kohm at 25 C',
  obtained: 'computed',
  ...atZero(celsius),
});

function thermistorPlots(): Plot[] {
  const celsius = Array.from({ length: 29 }, (_, i) => -40 + 5 * i);
  return [
    {
      title: 'Simulated thermistor',
      xLabel: 'temperature (C)',
      yLabel: 'resistance (ohm)',
      scale: 'log y',
      lines: [
        {
          label: 'model',
          x: celsius,
          y: celsius.map((at) => thermistorOhm(kFromCelsius(at))),
        },
      ],
      points: [
        {
          label: 'probe table',
          x: PROBE_TABLE.map(([at]) => at),
          y: PROBE_TABLE.map(([, ohm]) => ohm),
        },
        {
          label: 'material table',
          x: MATERIAL_TABLE.map(([at]) => at),
          y: MATERIAL_TABLE.map(([, ratio]) => 10_000 * ratio),
        },
      ],
    },
  ];
}

export const THERMISTOR: CheckGroup = {
  title: 'thermistor',
  rows: [
    fitRow(10, 19_549, 0.002),
    fitRow(25, 9_814, 0.002),
    fitRow(30, 7_908, 0.002),
    ...PROBE_TABLE.map(probeRow),
    ...MATERIAL_TABLE.map(materialRow),
    betaRow(3435, 0, 28_704.3),
    betaRow(3950, 0, 33_620.6),
    betaRow(3977, 0, 33_900.4),
    betaRow(3950, 40, 5301.5),
    betaRow(3950, 85, 1086.7),
    betaRow(3977, 100, 684.9),
  ],
  plots: thermistorPlots,
};

/** Output of a ratiometric 0.5 to 4.5 V sensor; the definition of the type, from memory. */
const voltsRow = (volts: number, supplyV: number, kPa: number) => ({
  what: `${volts} V of a ${supplyV} V supply`,
  actual: () =>
    (pressurePaOf((volts / supplyV) * FULL_SCALE_COUNTS, DEFAULT_UNIT.channels) ?? Number.NaN) /
    1000,
  expected: kPa,
  tolerance: 1e-9 * 400,
  unit: 'kPa',
  source: 'ratiometric live-zero definition Vout = Vs (0.1 + 0.8 p/span), 400 kPa span',
  obtained: 'from memory' as const,
  ...atZero(kPa),
});

export const PRESSURE_TRANSMITTER: CheckGroup = {
  title: 'pressure transmitter',
  rows: [
    voltsRow(0.5, 5, 0),
    voltsRow(2.5, 5, 200),
    voltsRow(4.5, 5, 400),
    voltsRow(2.375, 4.75, 200),
  ],
};
