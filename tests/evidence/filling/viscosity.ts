/**
 * Viscosity laws fitted to glycerol and its mixtures with water, whose viscosity over temperature is
 * better known than any repair resin's and falls in a similar way: a published table and a published
 * correlation. No public data sheet of a repair resin with three temperatures was found.
 */
import {
  fitViscosity,
  type ViscosityLaw,
  viscosityPaS,
} from '../../../sim/plant/break/viscosity.ts';
import { kFromCelsius } from '../../../src/core/units.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';

type Pairs = readonly (readonly [celsius: number, mPaS: number])[];

const GLYCEROL: Pairs = [
  [0, 12_070],
  [10, 3900],
  [20, 1410],
  [30, 612],
  [40, 284],
  [50, 142],
  [60, 81.3],
];
const SEGUR = 'Segur and Oberstar 1951, Ind. Eng. Chem. 43, 2117 (values from memory)';
/** By the correlation of Cheng 2008, as printed in the project's references; mass share of glycerol. */
const CHENG: Readonly<Record<string, Pairs>> = {
  '100 %': [
    [0, 12_100],
    [10, 3816.9],
    [20, 1413.8],
    [30, 597.9],
    [60, 82.2],
  ],
  '90 %': [
    [0, 1280.9],
    [10, 499.72],
    [20, 223.75],
    [30, 112.05],
    [60, 23.08],
  ],
  '80 %': [
    [0, 256.35],
    [10, 117.85],
    [20, 60.86],
    [30, 34.51],
    [60, 9.46],
  ],
  '60 %': [
    [0, 30.41],
    [10, 17.47],
    [20, 10.91],
    [30, 7.28],
    [60, 2.87],
  ],
};
const CHENG_SOURCE =
  'Cheng 2008, Ind. Eng. Chem. Res. 47, 3285 (equations as quoted by a secondary page)';
/** Two sources on pure glycerol at 20 °C, 1412 and 1460 mPa s, differ by this share. */
const SPREAD_RATIO = 0.034;

function lawOf(pairs: Pairs): ViscosityLaw {
  const fit = fitViscosity(
    pairs.map(([celsius, mPaS]) => ({
      temperatureK: kFromCelsius(celsius),
      viscosityPaS: mPaS / 1000,
    })),
  );
  if (!fit.ok) throw new Error(fit.problem);
  return fit.law;
}

const mPaSBy = (law: ViscosityLaw, celsius: number): number =>
  1000 * viscosityPaS(law, kFromCelsius(celsius));

const WARM = GLYCEROL.filter(([celsius]) => celsius >= 20);
const VOGEL = lawOf(WARM);
const ANDRADE = lawOf(GLYCEROL.filter(([celsius]) => celsius === 20 || celsius === 60));

/** Constants and misfit of the same five points by a fit made elsewhere, to the digits it prints. */
const fitRows: readonly CheckRow[] = [
  ['b of the law of Vogel for glycerol, 20 to 60 °C', () => VOGEL.bK, 1905.4, 0.05, 'K'],
  ['its Vogel temperature', () => VOGEL.cK, 273.15 - 124.08, 0.005, 'K'],
  ['its worst misfit', () => 100 * VOGEL.worstMissRatio, 2.4, 0.05, '%'],
].map(([what, actual, expected, tolerance, unit]) => ({
  what: String(what),
  actual: actual as () => number,
  expected: Number(expected),
  tolerance: Number(tolerance),
  unit: String(unit),
  source: `least squares of ln μ over a table: ${SEGUR}; fitted by another program`,
  obtained: 'computed' as const,
}));

const glycerolRows = WARM.map(
  ([celsius, mPaS]): CheckRow => ({
    what: `glycerol at ${celsius} °C by the law of Vogel over 20 to 60 °C`,
    actual: () => mPaSBy(VOGEL, celsius),
    expected: mPaS,
    tolerance: Number((SPREAD_RATIO * mPaS).toPrecision(3)),
    unit: 'mPa s',
    source: `${SEGUR}; tolerance: the 3.4 % between two sources on the same liquid`,
    obtained: 'from memory',
  }),
);

const andradeRow: CheckRow = {
  what: 'glycerol at 40 °C by the law of Andrade through 20 and 60 °C',
  actual: () => mPaSBy(ANDRADE, 40),
  expected: 284,
  tolerance: Number((SPREAD_RATIO * 284).toPrecision(3)),
  unit: 'mPa s',
  source: SEGUR,
  obtained: 'from memory',
  misses:
    'two points cannot tell how the fall slackens with warmth: between points 40 K apart the law of Andrade is some per cent too high',
};

/** Each temperature from a law fitted to the others: the fit has not seen what it is asked for. */
const chengRows = Object.entries(CHENG).flatMap(([share, pairs]) =>
  [10, 20, 30].map((celsius): CheckRow => {
    const others = pairs.filter(([other]) => other !== celsius);
    const expected = pairs.find(([other]) => other === celsius)?.[1] ?? NaN;
    return {
      what: `glycerol of ${share} at ${celsius} °C from a law fitted to the other temperatures`,
      actual: () => mPaSBy(lawOf(others), celsius),
      expected,
      tolerance: Number((SPREAD_RATIO * expected).toPrecision(3)),
      unit: 'mPa s',
      source: `${CHENG_SOURCE}; tolerance: the 3.4 % between two sources on pure glycerol`,
      obtained: 'computed',
    };
  }),
);

const crcRows = (
  [
    ['80 %', 60.6],
    ['60 %', 10.9],
  ] as const
).map(
  ([share, expected]): CheckRow => ({
    what: `glycerol of ${share} at 20 °C from a law fitted to 0, 10, 30 and 60 °C`,
    actual: () => mPaSBy(lawOf((CHENG[share] ?? []).filter(([c]) => c !== 20)), 20),
    expected,
    tolerance: Number((SPREAD_RATIO * expected).toPrecision(3)),
    unit: 'mPa s',
    source: 'CRC Handbook of Chemistry and Physics, as quoted by a secondary page',
    obtained: 'seen second-hand',
  }),
);

function fitPlot(): Plot {
  const celsius = Array.from({ length: 61 }, (_, i) => i);
  const line = (label: string, law: ViscosityLaw) => ({
    label,
    x: celsius,
    y: celsius.map((c) => mPaSBy(law, c)),
  });
  const points = (label: string, pairs: Pairs) => ({
    label,
    x: pairs.map(([c]) => c),
    y: pairs.map(([, mPaS]) => mPaS),
  });
  return {
    title: 'viscosity of glycerol and water',
    xLabel: 'temperature in °C',
    yLabel: 'viscosity in mPa s',
    scale: 'log y',
    lines: [
      line('law of Vogel, glycerol 20 to 60 °C', VOGEL),
      line('law of Andrade, glycerol at 20 and 60 °C', ANDRADE),
      ...Object.entries(CHENG).map(([share, pairs]) =>
        line(`law of Vogel, ${share}`, lawOf(pairs)),
      ),
    ],
    points: [
      points('Segur and Oberstar', GLYCEROL),
      ...Object.entries(CHENG).map(([share, pairs]) => points(`Cheng, ${share}`, pairs)),
    ],
  };
}

export const VISCOSITY_FITS: CheckGroup = {
  title: 'viscosity over temperature, fitted to a table',
  rows: [...fitRows, ...glycerolRows, andradeRow, ...chengRows, ...crcRows],
  plots: () => [fitPlot()],
};
