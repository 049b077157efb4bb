/**
 * The paths of gas in a gap while the front stands still: past the resin to the injector as
 * bubbles, into the resin and out of it (Henry), and freely through a dry mouth. Each function
 * advances one path, in place, over a time chosen by `break.ts`; times and rates are demo values.
 */

import { GAS_CONSTANT_J_PER_MOL_K } from '../air/gas-constant.ts';
import { filledM3, type Gap } from './gap-shapes.ts';

export interface GapState {
  /** Length filled with resin. */
  frontM: number;
  /** Volume of that resin, kept beside the length since every law needs it. */
  resinM3: number;
  /** Gas ahead of the front. */
  trappedMol: number;
  /** Gas dissolved in the resin of the gap. */
  dissolvedMol: number;
  /** Gas that has left to the injector as gas, net: negative where more entered. */
  givenMol: number;
  /** Gas that entered dissolved in resin, net. */
  carriedMol: number;
  /** Gas leaving past the resin, as bubbles. */
  bubbledMolPerS: number;
}

export interface GasDrive {
  readonly injectorPa: number;
  readonly viscosityPaS: number;
  readonly atmospherePa: number;
  readonly gasK: number;
  /** Gas that resin takes up at equilibrium (Henry), mol/(m³ Pa). */
  readonly solubilityMolPerM3Pa: number;
}

/** Escape times are stated for this viscosity. */
const REFERENCE_VISCOSITY_PA_S = 0.05;
/** Times in which resin dissolves gas under pressure, and releases it afterwards; demo. */
const DISSOLVING_S = 60;
const COMING_OUT_S = 600;
/** Time in which a dry gap follows the injector; demo. */
const BREATHING_S = 0.05;
/** The same past the resin of a gap that air presses on; demo. */
const FINGERING_S = 20;

/** Pressure of the trapped gas, Pa: ideal gas, so Boyle. */
export const gasPa = (state: GapState, gap: Gap, gasK: number): number =>
  (state.trappedMol * GAS_CONSTANT_J_PER_MOL_K * gasK) / (gap.volumeM3 - state.resinM3);

/**
 * Share of the trapped gas that escapes past the resin per second. Gas leaves only under vacuum,
 * and faster the deeper it is, because only expanded gas has bubbles that reach the mouth; at the
 * atmosphere capillarity holds it. The more of the gap the gas fills, the nearer it is to the
 * mouth. Demo law; thick resin slows it in proportion.
 */
export function escapePerS(
  gap: Gap,
  { injectorPa, atmospherePa, viscosityPaS }: GasDrive,
  gasShare: number,
): number {
  if (injectorPa >= atmospherePa) return 0;
  const depth = 1 - injectorPa / atmospherePa;
  return (REFERENCE_VISCOSITY_PA_S * gasShare * depth) / (gap.escapeS * viscosityPaS);
}

/** Lets gas escape past the resin for half of `dtS`, with the front standing still. */
export function bubbleForHalf(state: GapState, gap: Gap, drive: GasDrive, dtS: number): void {
  const share = (gap.volumeM3 - state.resinM3) / gap.volumeM3;
  const perS = escapePerS(gap, drive, share);
  if (perS === 0) return;
  const leavingMol = state.trappedMol * fading(0.5 * perS * dtS);
  state.trappedMol -= leavingMol;
  state.givenMol += leavingMol;
}

/**
 * Lets gas and resin exchange for half of `dtS`: the dissolved amount tends to solubility times gas
 * pressure times resin volume (Henry), faster in than out.
 */
export function dissolveForHalf(state: GapState, gap: Gap, drive: GasDrive, dtS: number): void {
  const { resinM3, trappedMol, dissolvedMol } = state;
  const capacityM3 = drive.solubilityMolPerM3Pa * GAS_CONSTANT_J_PER_MOL_K * drive.gasK * resinM3;
  /** Ratio of dissolved to trapped gas at equilibrium. */
  const ratio = capacityM3 / (gap.volumeM3 - resinM3);
  const surplusMol = ratio * trappedMol - dissolvedMol;
  const timeS = surplusMol > 0 ? DISSOLVING_S : COMING_OUT_S;
  const movedMol = (surplusMol / (1 + ratio)) * fading(((1 + ratio) * 0.5 * dtS) / timeS);
  state.trappedMol = trappedMol - movedMol;
  state.dissolvedMol = dissolvedMol + movedMol;
}

/**
 * Applies the front's new position. Resin that moves in is saturated at the atmosphere; resin that
 * moves out takes its share of the dissolved gas along.
 */
export function takeFront(state: GapState, gap: Gap, drive: GasDrive, frontM: number): void {
  const toM3 = filledM3(gap, frontM);
  const movedM3 = toM3 - state.resinM3;
  const carriedMol =
    movedM3 > 0
      ? movedM3 * drive.solubilityMolPerM3Pa * drive.atmospherePa
      : (state.dissolvedMol * movedM3) / state.resinM3;
  state.frontM = frontM;
  state.resinM3 = toM3;
  state.dissolvedMol += carriedMol;
  state.carriedMol += carriedMol;
}

/** Lets the gas of a dry gap follow the injector. */
export const breathe = (state: GapState, gap: Gap, drive: GasDrive, dtS: number): void =>
  follow(state, gap, drive, dtS / BREATHING_S);

/** Brings the gas towards the injector's pressure, by `z` times of it. */
function follow(state: GapState, gap: Gap, drive: GasDrive, z: number): void {
  const aheadM3 = gap.volumeM3 - state.resinM3;
  const restMol = (drive.injectorPa * aheadM3) / (GAS_CONSTANT_J_PER_MOL_K * drive.gasK);
  const leavingMol = (state.trappedMol - restMol) * fading(z);
  state.trappedMol -= leavingMol;
  state.givenMol += leavingMol;
}

/**
 * Lets gas of a dry injector finger through the resin of a gap to the gas behind it, and back: the
 * thin gas breaks through the thick resin, which stays where it is.
 */
export const finger = (state: GapState, gap: Gap, drive: GasDrive, dtS: number): void =>
  follow(state, gap, drive, dtS / FINGERING_S);

/** 1 - exp(-z) to second order, and from 0 to 1 for any z above 0: a step of any length is safe. */
function fading(z: number): number {
  if (z < 0.01) return z * (1 - 0.5 * z);
  const grown = z * (1 + 0.5 * z);
  return grown / (1 + grown);
}
