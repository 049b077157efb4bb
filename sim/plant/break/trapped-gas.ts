/**
 * The paths of gas in a gap: past the resin to the injector, into the resin and out of it (Henry),
 * and freely through a dry mouth. Gas passes resin as a finger that drives it aside, as far as its
 * pressure exceeds the injector's and the capillary pressure of the mouth, the widest place. Each
 * function advances one path, in place, over a time chosen by `break.ts`. Fitted to the trade's
 * windows are the share of the gap that a finger takes, the length of the meniscus, and that gas
 * spreads into resin over half the width; times of dry gaps are demo values.
 */

import { GAS_CONSTANT_J_PER_MOL_K } from '../air/gas-constant.ts';
import { filledM3, type Gap, resistancePerM3 } from './gap-shapes.ts';

export interface GapState {
  /** Length filled with resin. */
  frontM: number;
  /** Volume of that resin and its resistance, kept beside the length since every law needs them. */
  resinM3: number;
  resistancePerM3: number;
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
  readonly gasK: number;
  /** Surface tension times the cosine of the contact angle, N/m. */
  readonly adhesionNPerM: number;
  /** Gas that resin takes up at equilibrium (Henry), mol/(m³ Pa). */
  readonly solubilityMolPerM3Pa: number;
  /** Of gas in resin. */
  readonly diffusionM2PerS: number;
  /** Pressure at which the resin that comes in is saturated. */
  readonly resinAirPa: number;
}

/** Time in which a dry gap follows the injector; demo. */
const BREATHING_S = 0.05;
/** The same past the resin of a gap that air presses on; demo. */
const FINGERING_S = 20;

/** Pressure of the trapped gas, Pa: ideal gas, so Boyle. */
export const gasPa = (state: GapState, gap: Gap, gasK: number): number =>
  (state.trappedMol * GAS_CONSTANT_J_PER_MOL_K * gasK) / (gap.volumeM3 - state.resinM3);

/** Pressure that the gas must have to pass the resin: the injector's, and the mouth's capillary pressure. */
export const thresholdPa = (gap: Gap, { injectorPa, adhesionNPerM }: GasDrive): number =>
  injectorPa + (2 * adhesionNPerM) / gap.mouthApertureM;

/**
 * Flow of gas past the resin per pressure that drives it, m³/(s Pa): the share of the gap that a
 * finger takes, over the resistance of the resin up to the front and of a meniscus.
 */
export const fingerM3PerSPa = (state: GapState, gap: Gap, viscosityPaS: number): number =>
  gap.fingerRatio / (viscosityPaS * (state.resistancePerM3 + gap.meniscusPerM3));

/**
 * Lets gas escape past the resin for half of `dtS`, with the front standing still. As the gas
 * expands into the flow, dp/dt = -k p (p - b) with b the threshold: logistic, so that the solution is
 * a fraction of exponentials, here to second order and never past the threshold at any step.
 */
export function bubbleForHalf(state: GapState, gap: Gap, drive: GasDrive, dtS: number): void {
  const aheadM3 = gap.volumeM3 - state.resinM3;
  const pa = (state.trappedMol * GAS_CONSTANT_J_PER_MOL_K * drive.gasK) / aheadM3;
  const restPa = thresholdPa(gap, drive);
  if (pa <= restPa) return;
  const perPa = (0.5 * dtS * fingerM3PerSPa(state, gap, drive.viscosityPaS)) / aheadM3;
  const z = perPa * restPa;
  const half = 1 + 0.5 * z;
  const leavingMol = (state.trappedMol * perPa * half * (pa - restPa)) / (1 + perPa * pa * half);
  state.trappedMol -= leavingMol;
  state.givenMol += leavingMol;
}

/**
 * Time in which gas spreads through resin over half the width of a gap: 4 l² / (π² D), the first
 * term of the diffusion into a strip that is closed on its far side.
 */
export const spreadingS = ({ widthM }: Gap, diffusionM2PerS: number): number =>
  (widthM * widthM) / (Math.PI * Math.PI * diffusionM2PerS);

/**
 * Lets gas and resin exchange for half of `dtS`: the dissolved amount tends to solubility times gas
 * pressure times resin volume (Henry) in the time of diffusion.
 */
export function dissolveForHalf(state: GapState, gap: Gap, drive: GasDrive, dtS: number): void {
  const { resinM3, trappedMol, dissolvedMol } = state;
  const capacityM3 = drive.solubilityMolPerM3Pa * GAS_CONSTANT_J_PER_MOL_K * drive.gasK * resinM3;
  /** Ratio of dissolved to trapped gas at equilibrium. */
  const ratio = capacityM3 / (gap.volumeM3 - resinM3);
  const surplusMol = ratio * trappedMol - dissolvedMol;
  const perS = (1 + ratio) / spreadingS(gap, drive.diffusionM2PerS);
  const movedMol = (surplusMol / (1 + ratio)) * fading(0.5 * perS * dtS);
  state.trappedMol = trappedMol - movedMol;
  state.dissolvedMol = dissolvedMol + movedMol;
}

/**
 * Applies the front's new position. Resin that moves in brings the gas that it holds in the injector;
 * resin that moves out takes its share of the dissolved gas along.
 */
export function takeFront(state: GapState, gap: Gap, drive: GasDrive, frontM: number): void {
  const toM3 = filledM3(gap, frontM);
  const movedM3 = toM3 - state.resinM3;
  const carriedMol =
    movedM3 > 0
      ? movedM3 * drive.solubilityMolPerM3Pa * drive.resinAirPa
      : (state.dissolvedMol * movedM3) / state.resinM3;
  state.frontM = frontM;
  state.resinM3 = toM3;
  state.resistancePerM3 = resistancePerM3(gap, frontM);
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
