/**
 * Lamp, heat sink, dose and conversion against an adaptive solver of the same equations, and the
 * radiometer's mismatch against quadrature. The lamp's step is exact for a constant drive, so only
 * the solver's own tolerance is allowed there; the resin takes the step's mean light as constant.
 */
import {
  type CureState,
  createCureState,
  DEMO_CURING,
  stepCure,
} from '../../../sim/plant/light/cure.ts';
import {
  createLampState,
  DEMO_LAMP,
  type LampState,
  stepLamp,
} from '../../../sim/plant/light/lamp.ts';
import {
  DEMO_LAMP_BAND,
  DEMO_RADIOMETER,
  gaussianBand,
  mismatchFactor,
} from '../../../sim/plant/light/spectrum.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';
import reference from '../reference/cure.json' with { type: 'json' };

const SOURCE = 'reference/cure.md, scipy Radau at rtol 1e-10';
const ROOM_K = 295.15;
/** The solver's rtol of 1e-10 a step, over its few hundred steps. */
const SOLVER_RELATIVE = 3e-8;

type Pieces = readonly (readonly [untilS: number, driveRatio: number])[];
const STEADY: Pieces = [[300, 1]];
const PULSED: Pieces = [
  [100, 1],
  [150, 0],
  [300, 0.6],
];

interface Bench {
  readonly lamp: LampState;
  readonly cure: CureState;
}
interface Light {
  readonly film: number;
  readonly strength: number;
  readonly covered: boolean;
}
const COVERED: Light = { film: 0.9, strength: 1, covered: true };
const OPEN: Light = { film: 1, strength: 1, covered: false };
const TENFOLD: Light = { film: 1, strength: 10, covered: false };

/** The bench after `timeS` in steps of `dtS`. */
function run(timeS: number, pieces: Pieces, dtS: number, light: Light = COVERED): Bench {
  const lamp = createLampState(ROOM_K);
  const cure = createCureState();
  const steps = Math.round(timeS / dtS);
  for (let i = 0; i < steps; i++) {
    const [, driveRatio] = pieces.find(([untilS]) => (i + 0.5) * dtS < untilS) ?? [0, 0];
    const drive = { driveRatio, airK: ROOM_K, ageRatio: 1, heatSinkHeatW: 0, distanceM: 0.02 };
    stepLamp(lamp, DEMO_LAMP, drive, dtS);
    const irradianceWPerM2 = lamp.meanWPerM2 * light.film * light.strength;
    const { covered } = light;
    stepCure(cure, DEMO_CURING, { irradianceWPerM2, ambientUvWPerM2: 0, covered }, dtS);
  }
  return { lamp, cure };
}

const row = (
  what: string,
  actual: () => number,
  expected: number,
  tolerance: number,
  unit: string,
  why = '',
): CheckRow => ({
  what,
  actual,
  expected,
  tolerance,
  unit,
  source: `${SOURCE}${why}`,
  obtained: 'independent solver',
});

function lampRows(name: string, pieces: Pieces, rows: typeof reference.steady): CheckRow[] {
  return rows.flatMap(({ timeS, heatSinkK, doseJPerM2, irradianceWPerM2 }) => {
    const at = `${name}, ${timeS} s`;
    const after = (): LampState => run(timeS, pieces, 0.05).lamp;
    const close = (size: number): number => SOLVER_RELATIVE * size;
    return [
      row(`heat sink, ${at}`, () => after().heatSinkK, heatSinkK, close(heatSinkK), 'K'),
      row(`dose, ${at}`, () => after().doseJPerM2, doseJPerM2, close(doseJPerM2), 'J/m2'),
      // Where the lamp is off the solver holds its own noise.
      ...(irradianceWPerM2 < 1e-9
        ? []
        : [
            row(
              `light, ${at}`,
              () => after().irradianceWPerM2,
              irradianceWPerM2,
              close(200),
              'W/m2',
            ),
          ]),
    ];
  });
}

/**
 * Oxygen of an open face when rising light is taken as constant within a step: each step is off by
 * (r/E) I' h^3/12, so the whole rise by (r/E) I h^2/12. Second order.
 */
const oxygenError = (dtS: number, fullWPerM2: number): number =>
  ((dtS * dtS) / 12) * fullWPerM2 * (DEMO_CURING.oxygenRefillPerS / DEMO_CURING.oxygenJPerM2);

/**
 * Conversion below a film: the oxygen's end inside a step is off by I' h^2/(8 I); the light still
 * changes by 0.15 W/m2/s then (rise and droop).
 */
const startError = (dtS: number): number =>
  (0.15 / 200) * ((dtS * dtS) / 8) * DEMO_CURING.rate * Math.sqrt(200);

const DEPTHS_MM = [0, 0.25, 1, 2];
const coveredRows: CheckRow[] = reference.covered.flatMap(({ rows }, depth) =>
  rows
    .filter(({ conversion }) => conversion > 0)
    .map(({ timeS, conversion }) =>
      row(
        `conversion ${DEPTHS_MM[depth]} mm deep, ${timeS} s of lamp, 50 ms steps`,
        () => run(timeS, STEADY, 0.05).cure.conversion[depth] ?? Number.NaN,
        conversion,
        SOLVER_RELATIVE + startError(0.05),
        'share',
      ),
    ),
);
const openRows: CheckRow[] = reference.open.rows.map(({ timeS, oxygenRatio }) =>
  row(
    `oxygen at an open face, ${timeS} s of lamp, 1 ms steps`,
    () => run(timeS, STEADY, 0.001, OPEN).cure.oxygenRatio[0] ?? Number.NaN,
    oxygenRatio,
    SOLVER_RELATIVE + oxygenError(0.001, 200),
    'share',
    '; step error (r/E) I h^2/12',
  ),
);
const tenfoldRows: CheckRow[] = reference.openUnderTenfold.rows.map(({ timeS, conversion }) =>
  row(
    `conversion of an open face under tenfold light, ${timeS} s, 1 ms steps`,
    () => run(timeS, STEADY, 0.001, TENFOLD).cure.conversion[0] ?? Number.NaN,
    conversion,
    // The oxygen's error moves the start by E/I of it, and conversion by k sqrt(I) of that.
    SOLVER_RELATIVE + oxygenError(0.001, 2000) * (100 / 2000) * DEMO_CURING.rate * Math.sqrt(2000),
    'share',
    '; step error of the oxygen, carried to conversion',
  ),
);
const mismatchRows: CheckRow[] = Object.entries(reference.mismatch).map(([peakNm, factor]) =>
  row(
    `spectral mismatch of a lamp at ${peakNm} nm`,
    () => mismatchFactor(DEMO_RADIOMETER, gaussianBand(Number(peakNm), 12), DEMO_LAMP_BAND),
    factor,
    // Points 1.2 nm apart over a bend of 0.0058/nm, density 0.078/nm at most; two means.
    2 * ((1.2 * 1.2) / 12) * 0.0058 * 0.078,
    'ratio',
    '; quadrature, tolerance h^2/12 at the bends of the curve',
  ),
);

function plots(): Plot[] {
  const times = [0, 1, 2, 4, 6, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240, 300];
  const states = times.map((timeS) => run(timeS, STEADY, 0.05));
  return [
    {
      title: 'Conversion at four depths under the demo lamp',
      xLabel: 'time (s)',
      yLabel: 'conversion (share)',
      lines: DEPTHS_MM.map((mm, depth) => ({
        label: `${mm} mm`,
        x: times,
        y: states.map(({ cure }) => cure.conversion[depth] ?? Number.NaN),
      })),
      points: reference.covered.map(({ rows }, depth) => ({
        label: `solver, ${DEPTHS_MM[depth]} mm`,
        x: rows.map(({ timeS }) => timeS),
        y: rows.map(({ conversion }) => conversion),
      })),
    },
    {
      title: 'Irradiance as the heat sink warms up',
      xLabel: 'time (s)',
      yLabel: 'irradiance (W/m2)',
      lines: [
        {
          label: 'model',
          x: times.slice(1),
          y: states.slice(1).map(({ lamp }) => lamp.irradianceWPerM2),
        },
      ],
      points: [
        {
          label: 'solver',
          x: reference.steady.map(({ timeS }) => timeS),
          y: reference.steady.map(({ irradianceWPerM2 }) => irradianceWPerM2),
        },
      ],
    },
  ];
}

export const LIGHT_BY_SOLVER: CheckGroup = {
  title: 'lamp and cure, independent solver',
  rows: [
    ...lampRows('full drive', STEADY, reference.steady),
    ...lampRows('on, off and 60 %', PULSED, reference.pulsed),
    ...coveredRows,
    ...openRows,
    ...tenfoldRows,
    ...mismatchRows,
  ],
  plots,
};
