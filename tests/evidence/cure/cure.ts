/** Depth of cure, light in the resin, reciprocity and oxygen against textbooks and closed forms. */
import {
  type CureState,
  createCureState,
  curingSchema,
  DEMO_CURING,
  stepCure,
  workingCurveM,
} from '../../../sim/plant/light/cure.ts';
import { createOpenResinState, stepOpenResin } from '../../../sim/plant/light/open-resin.ts';
import { type CheckGroup, type CheckRow, closedForm, type Plot } from '../check.ts';

const resin = (penetrationMm: number, criticalMJPerCm2: number) => ({
  penetrationM: penetrationMm / 1000,
  criticalJPerM2: criticalMJPerCm2 * 10,
});
const depthMm = (exposureMJPerCm2: number, of: ReturnType<typeof resin>): number =>
  1000 * workingCurveM(10 * exposureMJPerCm2, of);

const JACOBS =
  'Cd = Dp ln(E/Ec), Jacobs (1992), as quoted by Kolibaba et al., Addit. Manuf. 84 (2024)';
const curveRow = (
  penetrationMm: number,
  criticalMJ: number,
  exposureMJ: number,
  expected: number,
  rest: Pick<CheckRow, 'tolerance' | 'source' | 'obtained'>,
): CheckRow => ({
  what: `Dp ${penetrationMm} mm, Ec ${criticalMJ}, E ${exposureMJ} mJ/cm2`,
  actual: () => depthMm(exposureMJ, resin(penetrationMm, criticalMJ)),
  expected,
  unit: 'mm',
  ...rest,
});
const computed = (exposureMJ: number, expected: number): CheckRow => ({
  ...curveRow(0.15, 8, exposureMJ, expected, {
    tolerance: 5e-6,
    source: JACOBS,
    obtained: 'computed',
  }),
  ...(expected === 0 ? { why: 'at the critical exposure nothing cures; five digits' } : {}),
});

/** Exposure in mJ/cm2 at which 0.1 of the groups have reacted at 1 mm and 2 mm, by the kinetics. */
function gelExposures(): readonly [number, number] {
  const state = createCureState();
  const found: number[] = [];
  for (let i = 0; i < 30_000 && found.length < 2; i++) {
    stepCure(
      state,
      DEMO_CURING,
      { irradianceWPerM2: 200, ambientUvWPerM2: 0, covered: true },
      1e-3,
    );
    if ((state.conversion[2 + found.length] ?? 0) >= 0.1) found.push(state.exposureJPerM2 / 10);
  }
  return [found[0] ?? Number.NaN, found[1] ?? Number.NaN];
}

export const WORKING_CURVE: CheckGroup = {
  title: 'working curve',
  rows: [
    curveRow(0.15, 10, 40, 0.21, {
      tolerance: 0.005,
      source: 'textbook example of the working curve',
      obtained: 'seen',
    }),
    curveRow(0.175, 8, 30, 0.231, {
      tolerance: 0.0005,
      source: 'worked example of a formula page',
      obtained: 'seen',
    }),
    computed(8, 0),
    computed(10, 0.03347),
    computed(20, 0.13744),
    computed(50, 0.27489),
    computed(100, 0.37886),
    computed(200, 0.48283),
    {
      what: 'added by doubling the exposure, Dp 0.15 mm',
      actual: () => depthMm(128, resin(0.15, 8)) - depthMm(64, resin(0.15, 8)),
      expected: 0.10397,
      tolerance: 5e-6,
      unit: 'mm',
      source: `${JACOBS}: Dp ln 2`,
      obtained: 'computed',
    },
    {
      what: 'Dp of the demo resin from its kinetics: depth between two gel exposures over ln of their ratio',
      actual: () => {
        const [near, far] = gelExposures();
        return 1 / Math.log(far / near);
      },
      expected: 1,
      tolerance: 0.05,
      unit: 'mm',
      source: `${JACOBS}; slope against ln E is Dp`,
      obtained: 'computed',
      misses:
        'conversion goes with sqrt(I), so by the kinetics gel advances up to 2 Dp for each e-fold of exposure; the working curve is the linear rule',
    },
  ],
  plots: workingCurvePlots,
};

function workingCurvePlots(): Plot[] {
  const exposures = Array.from({ length: 41 }, (_, i) => 8 * 10 ** (i / 25));
  const published = [10, 20, 50, 100, 200];
  return [
    {
      title: 'Working curve, Dp 0.15 mm',
      xLabel: 'exposure (mJ/cm2)',
      yLabel: 'cured depth (mm)',
      lines: [8, 10].map((critical) => ({
        label: `Ec ${critical} mJ/cm2`,
        x: exposures,
        y: exposures.map((exposure) => depthMm(exposure, resin(0.15, critical))),
      })),
      points: [
        {
          label: 'closed form, Ec 8',
          x: published,
          y: [0.03347, 0.13744, 0.27489, 0.37886, 0.48283],
        },
        { label: 'textbook, Ec 10', x: [40], y: [0.21] },
      ],
    },
  ];
}

/** A resin with these settings changed, and its state after one step of light. */
type CuringFile = Parameters<typeof curingSchema.parse>[0];
const FILE = {
  criticalMJPerCm2: 100,
  penetrationMm: 1,
  oxygenMJPerCm2: 10,
  oxygenRefillPerS: 4,
  ratePerSAt10MWPerCm2: 0.01656,
  gelConversion: 0.1,
  tackFreeConversion: 0.5,
  daylightEffect: 1,
};
function lit(
  wPerM2: number,
  seconds: number,
  covered: boolean,
  changes: CuringFile = {},
): CureState {
  const curing = curingSchema.parse({ ...FILE, ...(changes as object) });
  const state = createCureState();
  stepCure(state, curing, { irradianceWPerM2: wPerM2, ambientUvWPerM2: 0, covered }, seconds);
  return state;
}

/** Time to a conversion at the face, by bisection on the length of one exact step. */
function timeToS(
  conversion: number,
  wPerM2: number,
  covered: boolean,
  changes: CuringFile = {},
): number {
  let [low, high] = [0, 1e5];
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if ((lit(wPerM2, middle, covered, changes).conversion[0] ?? 0) > conversion) high = middle;
    else low = middle;
  }
  return high;
}

/** Light at a depth beside the face, told by how fast it uses up the oxygen there. */
const lightRatio = (depth: number, penetrationMm: number): number => {
  const { oxygenRatio } = lit(100, 0.1, true, { penetrationMm });
  return (1 - (oxygenRatio[depth] ?? Number.NaN)) / (1 - (oxygenRatio[0] ?? Number.NaN));
};
const LAMBERT = 'I = I0 exp(-z/Dp), law of Bouguer, Lambert and Beer';

export const LIGHT_IN_RESIN: CheckGroup = {
  title: 'light in the resin',
  rows: [
    closedForm('share at one Dp', () => lightRatio(2, 1), 0.36788, 'ratio', LAMBERT, 1.5e-5),
    closedForm('share at two Dp', () => lightRatio(3, 1), 0.13534, 'ratio', LAMBERT, 4e-5),
    closedForm(
      'share at 0.25 mm, Dp 0.5 mm',
      () => lightRatio(1, 0.5),
      0.60653,
      'ratio',
      LAMBERT,
      1e-5,
    ),
  ],
};

/** Oxygen that is gone at once, so that the kinetics stand alone. */
const NO_OXYGEN = { oxygenMJPerCm2: 0.01 };
const halfS = (wPerM2: number): number => timeToS(0.5, wPerM2, true, NO_OXYGEN) - 0.1 / wPerM2;
const ODIAN = 'Rp = kp [M] (phi Ia/kt)^(1/2), Odian, Principles of Polymerization (from memory)';

export const RECIPROCITY: CheckGroup = {
  title: 'reciprocity of light and time',
  rows: [
    closedForm(
      'time to half, 4 times the light',
      () => halfS(400) / halfS(100),
      0.5,
      'ratio',
      ODIAN,
    ),
    closedForm(
      'dose to half, 4 times the light',
      () => (4 * halfS(400)) / halfS(100),
      2,
      'ratio',
      ODIAN,
    ),
    closedForm(
      'exponent p of I^p t = constant',
      () => Math.log(halfS(50) / halfS(800)) / Math.log(800 / 50),
      0.5,
      'ratio',
      `Schwarzschild's law; p = 1/2 where radicals end in pairs: ${ODIAN}`,
    ),
    closedForm(
      'time to half at 10 mW/cm2, 0.1 /s',
      () => 0.1656 * halfS(100),
      Math.LN2 * 10,
      'ratio',
      ODIAN,
    ),
    closedForm(
      'open resin in full sun, dose after 16.7 s of 6 mW/cm2, effect 1',
      () => {
        const state = createOpenResinState();
        const curing = curingSchema.parse(FILE);
        for (let i = 0; i < 334; i++) stepOpenResin(state, curing, 60, 0.05);
        return state.doseJPerM2 / 10;
      },
      100,
      'mJ/cm2',
      'dose = irradiance times time; 6 mW/cm2 of UV in full sun from memory',
      0.003,
    ),
  ],
};

const startS = (wPerM2: number, covered: boolean): number => timeToS(0, wPerM2, covered);
const INHIBITION =
  'inhibition time = oxygen over rate of initiation, proportional to 1/I (from memory)';
const BALANCE = 'dO/dt = r (1 - O) - I/E, solved by hand';

export const OXYGEN_INHIBITION: CheckGroup = {
  title: 'oxygen inhibition',
  rows: [
    closedForm('inhibition at 20 mW/cm2, 10 mJ/cm2', () => startS(200, true), 0.5, 's', INHIBITION),
    closedForm(
      'ten times the light',
      () => startS(200, true) / startS(2000, true),
      10,
      'ratio',
      INHIBITION,
    ),
    closedForm(
      'light to the end of inhibition, at any light',
      () => 37 * startS(37, true),
      100,
      'J/m2',
      INHIBITION,
    ),
    closedForm(
      'open face at twice the light that the air keeps pace with: ln 2/r',
      () => startS(800, false),
      Math.LN2 / 4,
      's',
      BALANCE,
    ),
    closedForm(
      'open face at half that light: oxygen that stays',
      () => lit(200, 100, false).oxygenRatio[0] ?? Number.NaN,
      0.5,
      'ratio',
      BALANCE,
    ),
  ],
};
