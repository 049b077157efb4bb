/** Exposure limits for eye and skin: the weighting formula against the table of its own paper. */
import { actinicWeight, permissibleEyeTimeS } from '../../../src/cure/uv-hazard.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

const TABLE =
  'ICNIRP, Health Physics 87 (2004) 171-186, table 1, as quoted by two independent open-source copies';
const LAMPS = 'IEC 62471:2006 4.3.2, as quoted by an open-source copy';

/** S of the table, two digits at most; the paper's formula is a fit and parts from it by up to 5 %. */
const S_TABLE: readonly (readonly [nm: number, s: number])[] = [
  [270, 1],
  [300, 0.3],
  [335, 0.00034],
  [340, 0.00028],
  [345, 0.00024],
  [350, 0.0002],
  [355, 0.00016],
  [360, 0.00013],
  [365, 0.00011],
  [370, 0.000093],
  [375, 0.000077],
  [380, 0.000064],
  [385, 0.000053],
  [390, 0.000044],
  [395, 0.000036],
  [400, 0.00003],
];
/** The 2a-2c fit is known to be high here. */
const S_TABLE_MISSED: readonly (readonly [nm: number, s: number])[] = [
  [315, 0.003],
  [320, 0.001],
];

const weightRow = ([nm, s]: readonly [number, number]): CheckRow => ({
  what: `actinic weight at ${nm} nm`,
  actual: () => actinicWeight(nm),
  expected: s,
  tolerance: 0.05 * s,
  unit: 'ratio',
  source: TABLE,
  obtained: 'seen second-hand',
});
const missedRow = (entry: readonly [number, number]): CheckRow => ({
  ...weightRow(entry),
  misses: 'formula and table of the paper part by about 25 % between 313 and 320 nm',
});

/** The table's last column: exposure in 8 h of one wavelength alone, 30 J/m2 over S, two digits. */
const limitRow = (nm: number, jPerM2: number): CheckRow => ({
  what: `8 h limit of ${nm} nm alone`,
  actual: () => 30 / actinicWeight(nm),
  expected: jPerM2,
  tolerance: 0.05 * jPerM2,
  unit: 'J/m2',
  source: TABLE,
  obtained: 'seen second-hand',
});

const eyeRow = (mWPerCm2: number, seconds: number): CheckRow => ({
  what: `eye in ${mWPerCm2} mW/cm2 of near UV`,
  actual: () => permissibleEyeTimeS(10 * mWPerCm2),
  expected: seconds,
  tolerance: 1e-9 * seconds,
  unit: 's',
  source: `${LAMPS}: 10 000 J/m2 up to 1000 s`,
  obtained: 'computed',
});

export const UV_HAZARD: CheckGroup = {
  title: 'UV hazard to eye and skin',
  rows: [
    ...S_TABLE.map(weightRow),
    ...S_TABLE_MISSED.map(missedRow),
    limitRow(365, 2.7e5),
    limitRow(380, 4.7e5),
    limitRow(395, 8.3e5),
    limitRow(400, 1e6),
    eyeRow(100, 10),
    eyeRow(20, 50),
    eyeRow(5, 200),
    eyeRow(1.001, 1000 / 1.001),
  ],
  plots: () => {
    const nm = Array.from({ length: 96 }, (_, i) => 210 + 2 * i);
    const table = [[254, 0.5] as const, ...S_TABLE, ...S_TABLE_MISSED];
    return [
      {
        title: 'Actinic weighting function',
        xLabel: 'wavelength (nm)',
        yLabel: 'S (1 at 270 nm)',
        scale: 'log y',
        lines: [{ label: 'formula', x: nm, y: nm.map(actinicWeight) }],
        points: [{ label: 'table', x: table.map(([at]) => at), y: table.map(([, s]) => s) }],
      },
    ];
  },
};
