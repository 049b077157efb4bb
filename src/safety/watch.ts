/**
 * Whether the world follows what was commanded: for how long the pump has worked in vain, the lamp
 * burned or been dark, the vent stood open. Durations only; what is too long is said in the alarm
 * table.
 */
import type { Actuators } from '../frame.ts';

export interface Watch {
  readonly pumpFutileS: number;
  /** Pressure at which the pump last made headway. */
  readonly headwayPa: number | null;
  readonly lampOnForS: number;
  readonly lampOffForS: number;
  readonly ventOpenForS: number;
}

export const WATCH_START: Watch = {
  pumpFutileS: 0,
  headwayPa: null,
  lampOnForS: 0,
  lampOffForS: 0,
  ventOpenForS: 0,
};

/** A pump that works this hard must move the pressure by this much; three steps of the converter. */
const HARD_AT_WORK_RATIO = 0.5;
const HEADWAY_PA = 1_500;

export function stepWatch(
  watch: Watch,
  commanded: Actuators,
  pressurePa: number | null,
  dtS: number,
): Watch {
  const lampOn = commanded.lampEnabled && commanded.lampRatio > 0;
  return {
    ...pumpWatch(watch, commanded, pressurePa, dtS),
    lampOnForS: lampOn ? watch.lampOnForS + dtS : 0,
    lampOffForS: lampOn ? 0 : watch.lampOffForS + dtS,
    ventOpenForS: commanded.ventOpen ? watch.ventOpenForS + dtS : 0,
  };
}

function pumpWatch(
  { pumpFutileS, headwayPa }: Watch,
  { pumpRatio, selector }: Actuators,
  pressurePa: number | null,
  dtS: number,
): Pick<Watch, 'pumpFutileS' | 'headwayPa'> {
  if (pumpRatio < HARD_AT_WORK_RATIO || pressurePa === null) {
    return { pumpFutileS: 0, headwayPa: null };
  }
  if (headwayPa === null) return { pumpFutileS: 0, headwayPa: pressurePa };
  const wonPa = selector === 'vacuum' ? headwayPa - pressurePa : pressurePa - headwayPa;
  if (wonPa >= HEADWAY_PA) return { pumpFutileS: 0, headwayPa: pressurePa };
  return { pumpFutileS: pumpFutileS + dtS, headwayPa };
}
