/**
 * What a person sees of a break: escaping bubbles, and how much of it is still dark. Gas shows at
 * its present volume: under pressure a bubble is small and the break looks better than it is.
 */

import { GAS_CONSTANT_J_PER_MOL_K } from '../air/gas-constant.ts';
import { type Break, type BreakState, lengthM } from './break.ts';
import { seenM2 } from './gap-shapes.ts';

/**
 * Bubbles are visible where this share of the break's volume leaves per second, at the atmosphere.
 */
const VISIBLE_PER_S = 0.003;
/** The eye calls a break clear when less than this share of its area is dark; demo. */
const CLEAR_DARK_RATIO = 0.04;

/** Share of each gap's length that resin has reached, 0 to 1. */
export const frontRatios = (state: BreakState, { gaps }: Break): readonly number[] =>
  gaps.map(({ lengthM }, i) => (state.gaps[i]?.frontM ?? 0) / lengthM);

/**
 * How far resin has come in the longest gap, where a person looks for the last of the air; along the
 * whole of a crack that is filled part by part.
 */
export function longestFrontRatio(state: BreakState, brk: Break): number {
  if (brk.inTurn === true) {
    const filledM = state.gaps.reduce((sum, { frontM }) => sum + frontM, 0);
    return filledM / lengthM(brk);
  }
  const lengthsM = brk.gaps.map(({ lengthM }) => lengthM);
  return frontRatios(state, brk)[lengthsM.indexOf(Math.max(...lengthsM))] ?? 0;
}

/** Share of the area of all gaps that resin has reached, 0 to 1. */
export function clarityRatio(state: BreakState, { gaps }: Break): number {
  let wholeM2 = 0;
  let clearM2 = 0;
  gaps.forEach((gap, i) => {
    wholeM2 += gap.count * seenM2(gap, gap.lengthM);
    clearM2 += gap.count * seenM2(gap, state.gaps[i]?.frontM ?? 0);
  });
  return clearM2 / wholeM2;
}

/** `under`: the part that is looked at; without one, all of the break, and each part for itself. */
export function looksClear(state: BreakState, brk: Break, under?: number): boolean {
  if (brk.inTurn !== true) return 1 - clarityRatio(state, brk) < CLEAR_DARK_RATIO;
  return brk.gaps.every((gap, i) => {
    if (under !== undefined && under !== i) return true;
    const part = { gaps: state.gaps.slice(i, i + 1) };
    return 1 - clarityRatio(part, { gaps: [gap] }) < CLEAR_DARK_RATIO;
  });
}

/** Whether gas leaves past the resin fast enough to be seen. */
export function bubbling(
  state: BreakState,
  { gaps }: Break,
  atmospherePa: number,
  gasK: number,
  under?: number,
): boolean {
  let volumeM3 = 0;
  let leavingMolPerS = 0;
  gaps.forEach((gap, i) => {
    if (under !== undefined && under !== i) return;
    volumeM3 += gap.count * gap.volumeM3;
    leavingMolPerS += gap.count * (state.gaps[i]?.bubbledMolPerS ?? 0);
  });
  const wholeMol = (atmospherePa * volumeM3) / (GAS_CONSTANT_J_PER_MOL_K * gasK);
  return leavingMolPerS > VISIBLE_PER_S * wholeMol;
}
