/**
 * The filling of a slit against closed forms of textbooks: plane Poiseuille flow, capillary pressure
 * between plates, capillary filling against time, and gas under pressure in the gap and in resin. No
 * published data on the filling of glass breaks was found, so these check the parts, not the whole.
 */
import { type BreakDrive, createBreakState, stepBreak } from '../../../sim/plant/break/break.ts';
import { capillaryPa } from '../../../sim/plant/break/front.ts';
import { type Gap, gapOf } from '../../../sim/plant/break/gap-shapes.ts';
import { dissolveForHalf } from '../../../sim/plant/break/trapped-gas.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';

const APERTURE_M = 50e-6;
const GAS_K = 293.15;
const ADHESION_N_PER_M = 0.035 * Math.cos((20 * Math.PI) / 180);
const SLIT: Gap = gapOf({
  kind: 'crack',
  count: 1,
  lengthM: 0.1,
  mouthApertureM: APERTURE_M,
  endRatio: 1,
  widthM: 0.002,
  pitRadiusM: 0,
  fingerRatio: 0,
});
const DISC: Gap = gapOf({ ...SLIT, kind: 'disc', pitRadiusM: 0.0015, widthM: 0.003 * Math.PI });
const DRIVE: BreakDrive = {
  injectorPa: 0,
  gasK: GAS_K,
  viscosityPaS: 0.05,
  adhesionNPerM: ADHESION_N_PER_M,
  solubilityMolPerM3Pa: 0,
  diffusionM2PerS: 1e-9,
  resinAirPa: 0,
  wet: true,
  dry: false,
  gelled: false,
};
const PUSHED: BreakDrive = { ...DRIVE, injectorPa: 80_000, adhesionNPerM: 0 };
const STEP_S = 0.001;
/** Gas so thin that it is none. */
const EMPTY_PA = 1e-9;

/** Where the front is at each time, from a gap that holds gas of a pressure. */
function frontsM(
  gap: Gap,
  drive: BreakDrive,
  gasPa: number,
  timesS: readonly number[],
  stepS = STEP_S,
): number[] {
  const brk = { gaps: [gap] };
  const state = createBreakState(brk, gasPa, GAS_K);
  let steps = 0;
  return timesS.map((timeS) => {
    for (; steps < Math.round(timeS / stepS); steps++) stepBreak(state, brk, drive, stepS);
    return Math.max(...state.gaps.map(({ frontM }) => frontM));
  });
}

const lastFrontM = (gap: Gap, drive: BreakDrive, gasPa: number, timeS: number): number =>
  frontsM(gap, drive, gasPa, [timeS])[0] ?? NaN;

const WASHBURN = 'Washburn between plates, L = sqrt(σ h cos θ t / (3 μ)) (form from memory)';
const TIMES_S = [0.5, 1, 2, 5, 10, 20, 30, 60];

const washburnM = (timeS: number): number =>
  Math.sqrt((ADHESION_N_PER_M * APERTURE_M * timeS) / (3 * DRIVE.viscosityPaS));

const washburnRow = (timeS: number, expectedMm: number): CheckRow => ({
  what: `length filled by capillary pressure in ${timeS} s`,
  actual: () => 1000 * lastFrontM(SLIT, DRIVE, EMPTY_PA, timeS),
  expected: expectedMm,
  tolerance: 5e-5,
  unit: 'mm',
  source: WASHBURN,
  obtained: 'computed',
});

/** Regression of ln L on ln t over the simulated front: exponent and ln L at 1 s. */
function washburnFit(): { readonly exponent: number; readonly atOneS: number } {
  const xs = TIMES_S.map(Math.log);
  const ys = frontsM(SLIT, DRIVE, EMPTY_PA, TIMES_S).map(Math.log);
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const [xMean, yMean] = [mean(xs), mean(ys)];
  const over = (other: readonly number[]): number =>
    xs.reduce((sum, x, i) => sum + (x - xMean) * (other[i] ?? NaN), 0);
  const exponent = over(ys) / over(xs);
  return { exponent, atOneS: Math.exp(yMean - exponent * xMean) };
}

function washburnPlot(): Plot {
  return {
    title: 'capillary filling of a slit of 50 µm',
    xLabel: 'time in s',
    yLabel: 'length filled in mm',
    scale: 'log both',
    lines: [
      {
        label: 'model',
        x: TIMES_S,
        y: frontsM(SLIT, DRIVE, EMPTY_PA, TIMES_S).map((lengthM) => 1000 * lengthM),
      },
    ],
    points: [{ label: 'Washburn', x: TIMES_S, y: TIMES_S.map((timeS) => 1000 * washburnM(timeS)) }],
  };
}

/** Radial flow between flat plates from r0: t = 6 μ / (h² p) (r² ln(r/r0) - (r² - r0²) / 2). */
function discTimeS(frontM: number): number {
  const [r, r0] = [DISC.pitRadiusM + frontM, DISC.pitRadiusM];
  const squares = r * r * Math.log(r / r0) - (r * r - r0 * r0) / 2;
  return (6 * PUSHED.viscosityPaS * squares) / (APERTURE_M * APERTURE_M * PUSHED.injectorPa);
}

/** The closed form's time is stepped through in equal parts; halving them tells the step's error. */
function discRow(frontMm: number): CheckRow {
  const timeS = discTimeS(frontMm / 1000);
  const [coarse, fine] = [8000, 16_000].map((parts) => {
    const [frontM] = frontsM(DISC, PUSHED, EMPTY_PA, [timeS], timeS / parts);
    return 1000 * (frontM ?? NaN);
  });
  const stepError = (2 * Math.abs((coarse ?? NaN) - (fine ?? NaN))) / 3;
  return {
    what: `front of radial flow between plates after ${timeS.toPrecision(6)} s at 80 kPa`,
    actual: () => fine ?? NaN,
    expected: frontMm,
    tolerance: Number(stepError.toPrecision(2)),
    unit: 'mm from the pit',
    source:
      'radial Poiseuille flow, integrated (derived); tolerance: twice the error of a second-order step',
    obtained: 'computed',
  };
}

export const SLIT_FILLING: CheckGroup = {
  title: 'filling of a slit',
  rows: [
    {
      what: 'length of a 50 µm slit filled at 80 kPa with 50 mPa s in 0.6 s',
      actual: () => 1000 * lastFrontM(SLIT, PUSHED, EMPTY_PA, 0.6),
      expected: 20,
      tolerance: 0.0005,
      unit: 'mm',
      source: 'plane Poiseuille flow, t = 6 μ L² / (h² Δp) (form from memory)',
      obtained: 'computed',
    },
    {
      what: 'capillary pressure in a 50 µm slit at 35 mN/m and 20°',
      actual: () => capillaryPa(APERTURE_M, ADHESION_N_PER_M),
      expected: 1315.57,
      tolerance: 0.005,
      unit: 'Pa',
      source: 'Young and Laplace between plates, 2 σ cos θ / h (form from memory)',
      obtained: 'computed',
    },
    washburnRow(1, 3.3111),
    washburnRow(10, 10.4705),
    washburnRow(60, 25.6473),
    {
      what: 'exponent of time in the length filled, by regression over 0.5 to 60 s',
      actual: () => washburnFit().exponent,
      expected: 0.5,
      tolerance: 1e-6,
      unit: 'of 1',
      source: WASHBURN,
      obtained: 'computed',
    },
    {
      what: 'length at 1 s by that regression',
      actual: () => 1000 * washburnFit().atOneS,
      expected: 3.3111,
      tolerance: 5e-5,
      unit: 'mm',
      source: WASHBURN,
      obtained: 'computed',
    },
    discRow(5),
    discRow(10),
    discRow(20),
  ],
  plots: () => [washburnPlot()],
};

/** What is left of a bubble's volume when its pressure rises with no gas lost. */
function bubbleLeftRatio(fromPa: number, toPa: number): number {
  const drive = { ...DRIVE, injectorPa: toPa, adhesionNPerM: 0 };
  const wide = gapOf({ ...SLIT, lengthM: 0.01, mouthApertureM: 1e-4 });
  return 1 - lastFrontM(wide, drive, fromPa, 5) / wide.lengthM;
}

const boyleRow = (fromPa: number, toPa: number, expected: number): CheckRow => ({
  what: `what trapped gas of ${fromPa / 1000} kPa shrinks to at ${toPa / 1000} kPa`,
  actual: () => bubbleLeftRatio(fromPa, toPa),
  expected,
  tolerance: 5e-6,
  unit: 'of its volume',
  source: 'law of Boyle, p1 V1 = p2 V2',
  obtained: 'computed',
});

/** Gas in resin that has stood for ten hours under a large body of gas, over the pressure. */
function dissolvedMolPerM3(gasPa: number, solubilityMolPerM3Pa: number): number {
  const drive = { ...DRIVE, solubilityMolPerM3Pa };
  const state = createBreakState({ gaps: [SLIT] }, gasPa, GAS_K).gaps[0];
  if (state === undefined) return NaN;
  // So little resin that what it takes does not change the pressure.
  state.resinM3 = 1e-9 * SLIT.volumeM3;
  for (let i = 0; i < 7200; i++) dissolveForHalf(state, SLIT, drive, 10);
  return state.dissolvedMol / state.resinM3;
}

const henryRow = (gasPa: number, solubility: number, expected: number): CheckRow => ({
  what: `air in resin of ${solubility * 1e5} mmol/(L bar) under ${gasPa / 1000} kPa`,
  actual: () => dissolvedMolPerM3(gasPa, solubility),
  expected,
  tolerance: 5e-6,
  unit: 'mol/m³',
  source: 'law of Henry, c = kH p',
  obtained: 'computed',
});

export const GAS_IN_A_GAP: CheckGroup = {
  title: 'gas trapped in a gap and dissolved in resin',
  rows: [
    boyleRow(20_265, 151_990, 0.13333),
    boyleRow(25_000, 239_325, 0.10446),
    boyleRow(5_000, 101_325, 0.04935),
    boyleRow(5_000, 84_600, 0.0591),
    henryRow(100_000, 2.5e-5, 2.5),
    henryRow(200_000, 2.5e-5, 5),
    henryRow(239_325, 2.5e-5, 5.98313),
    henryRow(100_000, 5e-5, 5),
  ],
};
