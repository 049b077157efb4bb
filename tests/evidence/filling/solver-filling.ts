/**
 * A leg and a disc through a whole programme of pressures, with gas that escapes, dissolves and comes
 * out, against an adaptive solver of the same laws; and the closed forms of the three shapes against
 * quadrature. The solver's programme takes nothing from the model but the text of its laws.
 */

import { GAS_CONSTANT_J_PER_MOL_K } from '../../../sim/plant/air/gas-constant.ts';
import {
  type Break,
  type BreakDrive,
  createBreakState,
  stepBreak,
} from '../../../sim/plant/break/break.ts';
import { filledM3, type Gap, gapOf, resistancePerM3 } from '../../../sim/plant/break/gap-shapes.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';
import reference from '../reference/filling.json' with { type: 'json' };

const SOURCE = 'reference/filling.md';
const GAS_K = 296.15;
const ATMOSPHERE_PA = 101_325;
const PRESSED_PA = 239_325;
const VACUUM_PA = 25_000;
const STEP_S = 0.002;
/** What the solver's own rtol of 1e-9 may add up to in some thousand steps, as a share. */
const SOLVER_RATIO = 3e-8;

const DRIVE: BreakDrive = {
  injectorPa: ATMOSPHERE_PA,
  gasK: GAS_K,
  viscosityPaS: 0.042,
  adhesionNPerM: 0.033,
  solubilityMolPerM3Pa: 2.5e-5,
  diffusionM2PerS: 2e-9,
  resinAirPa: 60_000,
  wet: true,
  dry: false,
  gelled: false,
};

type Name = 'leg' | 'disc' | 'crack';
const GAPS: Readonly<Record<Name, Gap>> = {
  leg: gapOf({
    kind: 'leg',
    count: 1,
    lengthM: 0.01,
    mouthApertureM: 1.2e-6,
    endRatio: 0.6,
    widthM: 0.0012,
    pitRadiusM: 0,
    fingerRatio: 0.2,
  }),
  disc: gapOf({
    kind: 'disc',
    count: 1,
    lengthM: 0.0095,
    mouthApertureM: 6e-6,
    endRatio: 0.5,
    widthM: 2 * Math.PI * 0.0015,
    pitRadiusM: 0.0015,
    fingerRatio: 0.4,
  }),
  crack: gapOf({
    kind: 'crack',
    count: 1,
    lengthM: 0.02,
    mouthApertureM: 2e-6,
    endRatio: 0.5,
    widthM: 0.0018,
    pitRadiusM: 0,
    fingerRatio: 0.3,
  }),
};

type Programme = readonly (readonly [seconds: number, injectorPa: number])[];
const PROGRAMMES: Readonly<Record<'leg' | 'disc', Programme>> = {
  leg: [
    [10, ATMOSPHERE_PA],
    [40, PRESSED_PA],
    [30, VACUUM_PA],
    [60, PRESSED_PA],
    [20, ATMOSPHERE_PA],
  ],
  disc: [
    [2, ATMOSPHERE_PA],
    [6, PRESSED_PA],
    [3, VACUUM_PA],
    [30, PRESSED_PA],
    [20, ATMOSPHERE_PA],
  ],
};

interface Found {
  readonly timeS: number;
  readonly frontRatio: number;
  readonly trappedRatio: number;
  readonly dissolvedRatio: number;
}

/** The model's own run, a value every half second. */
function modelRun(name: 'leg' | 'disc', stepS: number): readonly Found[] {
  const gap = GAPS[name];
  const brk: Break = { gaps: [gap] };
  const state = createBreakState(brk, ATMOSPHERE_PA, GAS_K);
  const startMol = (ATMOSPHERE_PA * gap.volumeM3) / (GAS_CONSTANT_J_PER_MOL_K * GAS_K);
  const found: Found[] = [];
  const steps = Math.round(0.5 / stepS);
  for (const [seconds, injectorPa] of PROGRAMMES[name]) {
    const drive = { ...DRIVE, injectorPa };
    for (let half = 0; half < 2 * seconds; half++) {
      for (let step = 0; step < steps; step++) stepBreak(state, brk, drive, stepS);
      for (const { frontM, trappedMol, dissolvedMol } of state.gaps)
        found.push({
          timeS: (found.length + 1) / 2,
          frontRatio: frontM / gap.lengthM,
          trappedRatio: trappedMol / startMol,
          dissolvedRatio: dissolvedMol / startMol,
        });
    }
  }
  return found;
}

const FINE = { leg: modelRun('leg', STEP_S), disc: modelRun('disc', STEP_S) };
const COARSE = { leg: modelRun('leg', 2 * STEP_S), disc: modelRun('disc', 2 * STEP_S) };

type Quantity = 'frontRatio' | 'trappedRatio' | 'dissolvedRatio';
const TELLS: Readonly<Record<Quantity, string>> = {
  frontRatio: 'share of the length that resin has reached',
  trappedRatio: 'gas ahead of the front over that of the empty gap',
  dissolvedRatio: 'gas in the resin over that of the empty gap',
};

/**
 * A method of second order that changes by c when its step is halved is still c / 3 away; twice
 * that, since the order itself is only nearly 2, is allowed.
 */
function rowsOf(name: 'leg' | 'disc', quantity: Quantity): CheckRow[] {
  const { timeS } = reference[name];
  return timeS.map((seconds, i): CheckRow => {
    const at = (run: readonly Found[]): number =>
      run[Math.round(2 * seconds) - 1]?.[quantity] ?? NaN;
    const stepError = (2 * Math.abs(at(COARSE[name]) - at(FINE[name]))) / 3;
    return {
      what: `${name} after ${seconds} s of its programme: ${TELLS[quantity]}`,
      actual: () => at(FINE[name]),
      expected: reference[name][quantity][i] ?? NaN,
      tolerance: Number((stepError + SOLVER_RATIO).toPrecision(2)),
      unit: 'of 1',
      source: `${SOURCE}, scipy Radau at rtol 1e-9; tolerance: twice the error of the 2 ms step`,
      obtained: 'independent solver',
    };
  });
}

const plotOf = (name: 'leg' | 'disc'): Plot => {
  const quantities = ['frontRatio', 'trappedRatio', 'dissolvedRatio'] as const;
  const x = FINE[name].map(({ timeS }) => timeS);
  return {
    title: `filling of a ${name} under rest, pressure, vacuum, pressure, rest`,
    xLabel: 'time in s',
    yLabel: 'share of length, or of first gas',
    lines: quantities.map((quantity) => ({
      label: TELLS[quantity],
      x,
      y: FINE[name].map((found) => found[quantity]),
    })),
    points: quantities.map((quantity) => ({
      label: `solver: ${TELLS[quantity]}`,
      x: reference[name].timeS,
      y: reference[name][quantity],
    })),
  };
};

export const SOLVER_FILLING: CheckGroup = {
  title: 'a break under a programme of pressures, by another solver',
  rows: (['leg', 'disc'] as const).flatMap((name) => [
    ...rowsOf(name, 'frontRatio'),
    ...rowsOf(name, 'trappedRatio'),
    ...rowsOf(name, 'dissolvedRatio'),
  ]),
  plots: () => [plotOf('leg'), plotOf('disc')],
};

/** Quadrature to 1e-12; closed forms to rounding. */
const shapeRow = (name: Name, what: string, actual: number, expected: number): CheckRow => ({
  what: `${what} of a ${name} over that by quadrature`,
  actual: () => actual / expected,
  expected: 1,
  tolerance: 1e-11,
  unit: 'of 1',
  source: `${SOURCE}, scipy quad at 1e-12`,
  obtained: 'independent solver',
});

export const GAP_SHAPES: CheckGroup = {
  title: 'volume and flow resistance of gaps',
  rows: (['leg', 'disc', 'crack'] as const).flatMap((name) => {
    const gap = GAPS[name];
    const shape = reference.shapes[name];
    const halfM = gap.lengthM / 2;
    return [
      shapeRow(name, 'volume to the middle', filledM3(gap, halfM), shape.halfVolumeM3),
      shapeRow(name, 'volume', gap.volumeM3, shape.volumeM3),
      shapeRow(name, 'half resistance', resistancePerM3(gap, halfM), shape.halfResistancePerM3),
      shapeRow(name, 'resistance', resistancePerM3(gap, gap.lengthM), shape.resistancePerM3),
    ];
  }),
};

/** Into an empty gap at constant pressure and without capillarity: where the front is at a time. */
function emptyFrontRatio(gap: Gap, timeS: number, parts: number): number {
  const brk: Break = { gaps: [gap] };
  const state = createBreakState(brk, 1e-9, GAS_K);
  const drive = { ...DRIVE, injectorPa: 150_000, adhesionNPerM: 0, resinAirPa: 0 };
  for (let i = 0; i < parts; i++) stepBreak(state, brk, drive, timeS / parts);
  return Math.max(...state.gaps.map(({ frontM }) => frontM)) / gap.lengthM;
}

export const FILL_TIMES: CheckGroup = {
  title: 'time to fill a wedge and a disc under constant pressure',
  rows: (['leg', 'disc', 'crack'] as const).flatMap((name) =>
    reference.times[name].ratio.map((ratio, i): CheckRow => {
      const timeS = reference.times[name].timeS[i] ?? NaN;
      const [coarse, fine] = [2000, 4000].map((parts) => emptyFrontRatio(GAPS[name], timeS, parts));
      const stepError = (2 * Math.abs((coarse ?? NaN) - (fine ?? NaN))) / 3;
      return {
        what: `place of the front in a ${name} after ${timeS.toPrecision(6)} s at 150 kPa`,
        actual: () => fine ?? NaN,
        expected: ratio,
        tolerance: Number((stepError + 1e-9).toPrecision(2)),
        unit: 'of its length',
        source: `${SOURCE}, t = μ / p ∫ w h R dx by scipy quad; tolerance: twice the step's error`,
        obtained: 'independent solver',
      };
    }),
  ),
};
