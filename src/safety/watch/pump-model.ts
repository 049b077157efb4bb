/**
 * What a pump's work does to the pressure of a closed, tight chamber. Work is the time, s, for which
 * the pump ran at full speed and rated voltage, or an equal product of speed and time. Strength is
 * the share of the data sheet's flow that the pump still moves.
 *
 * In suction the flow falls linearly to nothing at the greatest pressure ratio, in compression at
 * the dead head: the straight lines between the two points that a data sheet of a diaphragm pump
 * states. Isothermal gas in a fixed volume then approaches an end pressure exponentially, and only
 * the product of strength and work counts:
 *   suction      V dp = -S r / (r - 1) (p - air / r) dW
 *   compression  V dp = S air (1 - (p - air) / deadHead) dW
 */
import type { Selector } from '../../core/frame.ts';
import type { PumpSettings } from '../pump-settings.ts';

export interface Chamber {
  readonly volumeM3: number;
  readonly pump: PumpSettings;
}

export interface PumpCurve {
  /** Pressure that endless work approaches. */
  readonly endPa: number;
  /** Work in which the distance to it falls to 1/e, s. */
  readonly tauS: number;
}

export function pumpCurve(
  { volumeM3, pump }: Chamber,
  selector: Selector,
  atmospherePa: number,
): PumpCurve {
  const { greatestRatio, freeFlowM3PerS, deadHeadPa } = pump;
  if (selector === 'vacuum') {
    return {
      endPa: atmospherePa / greatestRatio,
      tauS: (volumeM3 * (greatestRatio - 1)) / (freeFlowM3PerS * greatestRatio),
    };
  }
  return {
    endPa: atmospherePa + deadHeadPa,
    tauS: (volumeM3 * deadHeadPa) / (freeFlowM3PerS * atmospherePa),
  };
}

/** Pressure after work that began at the air's pressure. */
export const pressureAfterPa = (
  { endPa, tauS }: PumpCurve,
  atmospherePa: number,
  workS: number,
): number => endPa + (atmospherePa - endPa) * Math.exp(-workS / tauS);

/** A pump that has lost half of its flow cannot be told from a sensor that shows half. */
export const WEAKEST_RATIO = 0.5;
/** From pull to pull, and from suction to compression, its strength keeps this close; demo. */
const KEEPS_RATIO = 0.85;

/** The least strength to reckon with, by what this job's pulls have shown; null before the first. */
export const leastStrengthRatio = (shownRatio: number | null): number =>
  shownRatio === null ? WEAKEST_RATIO : KEEPS_RATIO * shownRatio;

/** The work that leads to a pressure; infinite at the end pressure and beyond. */
export function workToS({ endPa, tauS }: PumpCurve, atmospherePa: number, pa: number): number {
  const left = (pa - endPa) / (atmospherePa - endPa);
  return left <= 0 ? Number.POSITIVE_INFINITY : -tauS * Math.log(left);
}
