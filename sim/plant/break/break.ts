/**
 * Filling of a break: a set of gaps under one mouth, each with a resin front, gas trapped ahead of
 * it and gas dissolved in its resin. It computes the gas that reaches the injector; shapes, front
 * and gas laws have files of their own. The parts are stepped in turn and in reverse order, so that
 * a step is second order.
 */

import { GAS_CONSTANT_J_PER_MOL_K } from '../air/gas-constant.ts';
import { type FrontForces, movedFrontM } from './front.ts';
import type { Gap } from './gap-shapes.ts';
import {
  breathe,
  bubbleForHalf,
  dissolveForHalf,
  finger,
  type GapState,
  type GasDrive,
  takeFront,
} from './trapped-gas.ts';

export interface Break {
  readonly gaps: readonly Gap[];
  /** The gaps are parts of one crack, and the injector stands on one after the other. */
  readonly inTurn?: true;
}

/** Of a crack, all its parts; of any other break, its longest gap. */
export const lengthM = ({ gaps, inTurn }: Break): number =>
  inTurn === true
    ? gaps.reduce((sum, gap) => sum + gap.lengthM, 0)
    : Math.max(...gaps.map((gap) => gap.lengthM));

export interface BreakState {
  /** One for each gap of the break, representing its `count` gaps. */
  readonly gaps: readonly GapState[];
}

export interface BreakDrive extends FrontForces, GasDrive {
  /** Resin stands over the break. */
  readonly wet: boolean;
  /** The injector stands on the break and holds no resin: air presses on what is in the gaps. */
  readonly dry: boolean;
  /** The gap on which the injector stands, where the gaps are worked in turn. */
  readonly under?: number;
  /** Resin no longer flows. */
  readonly gelled: boolean;
}

/** With resin in less than this share of its length, a gap without resin over it is open. */
const OPEN_RATIO = 0.01;

/** A dry break full of gas at a pressure. */
export function createBreakState({ gaps }: Break, gasPa: number, gasK: number): BreakState {
  return {
    gaps: gaps.map(({ volumeM3 }) => ({
      frontM: 0,
      resinM3: 0,
      resistancePerM3: 0,
      trappedMol: (gasPa * volumeM3) / (GAS_CONSTANT_J_PER_MOL_K * gasK),
      dissolvedMol: 0,
      givenMol: 0,
      carriedMol: 0,
      bubbledMolPerS: 0,
    })),
  };
}

/** Advances the break by `dtS`, in place; returns the gas that left it into the injector, mol/s. */
export function stepBreak(
  state: BreakState,
  { gaps }: Break,
  drive: BreakDrive,
  dtS: number,
): number {
  let leftMol = 0;
  for (let i = 0; i < gaps.length; i++) {
    const gap = gaps[i];
    const gapState = state.gaps[i];
    if (gap === undefined || gapState === undefined) continue;
    if (drive.under !== undefined && drive.under !== i) {
      stepApart(gapState, gap, drive, dtS);
      continue;
    }
    const before = gapState.givenMol;
    stepGap(gapState, gap, drive, dtS);
    leftMol += gap.count * (gapState.givenMol - before);
  }
  return leftMol / dtS;
}

/** Gas of one gap that no step may create or lose, mol. */
export const accountedMol = (state: GapState): number =>
  state.trappedMol + state.dissolvedMol + state.givenMol - state.carriedMol;

function stepGap(state: GapState, gap: Gap, drive: BreakDrive, dtS: number): void {
  if (drive.wet && !drive.gelled) {
    stepWetGap(state, gap, drive, dtS);
    return;
  }
  state.bubbledMolPerS = 0;
  if (drive.wet) return;
  if (state.frontM <= OPEN_RATIO * gap.lengthM) breathe(state, gap, drive, dtS);
  else if (!drive.gelled) {
    // Resin without more resin behind it stays where it is and closes the gap.
    dissolveForHalf(state, gap, drive, dtS);
    if (drive.dry) finger(state, gap, drive, dtS);
    dissolveForHalf(state, gap, drive, dtS);
  }
}

/** A part that the injector does not stand on keeps its resin and its gas; the two exchange. */
function stepApart(state: GapState, gap: Gap, drive: BreakDrive, dtS: number): void {
  state.bubbledMolPerS = 0;
  if (drive.gelled || state.frontM <= OPEN_RATIO * gap.lengthM) return;
  dissolveForHalf(state, gap, drive, dtS);
  dissolveForHalf(state, gap, drive, dtS);
}

/** Gas for half the step, the front for all of it, gas for the other half in reverse order. */
function stepWetGap(state: GapState, gap: Gap, drive: BreakDrive, dtS: number): void {
  const before = state.givenMol;
  dissolveForHalf(state, gap, drive, dtS);
  bubbleForHalf(state, gap, drive, dtS);
  takeFront(state, gap, drive, movedFrontM(gap, state, drive, dtS));
  bubbleForHalf(state, gap, drive, dtS);
  dissolveForHalf(state, gap, drive, dtS);
  state.bubbledMolPerS = (state.givenMol - before) / dtS;
}
