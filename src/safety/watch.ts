/**
 * Whether the world follows what was commanded: for how long the pump has worked in vain, the lamp
 * burned or been dark, the vent stood open. Durations only; what is too long is said in the alarm
 * table.
 */
import { type Actuators, lampBurns } from '../frame.ts';

export interface Watch {
  readonly pumpFutileS: number;
  /** Pressure at which the pump last made headway; null while it is not hard at work. */
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
  const lampOn = lampBurns(commanded);
  const headwayPa = headwayOf(watch, commanded, pressurePa);
  const futile = headwayPa !== null && headwayPa === watch.headwayPa;
  return {
    headwayPa,
    pumpFutileS: futile ? watch.pumpFutileS + dtS : 0,
    lampOnForS: lampOn ? watch.lampOnForS + dtS : 0,
    lampOffForS: lampOn ? 0 : watch.lampOffForS + dtS,
    ventOpenForS: commanded.ventOpen ? watch.ventOpenForS + dtS : 0,
  };
}

/** The pressure to beat: it moves on each time the pump has won enough, and is null at ease. */
function headwayOf(
  { headwayPa }: Watch,
  { pumpRatio, selector }: Actuators,
  pressurePa: number | null,
): number | null {
  if (pumpRatio < HARD_AT_WORK_RATIO || pressurePa === null) return null;
  if (headwayPa === null) return pressurePa;
  const wonPa = selector === 'vacuum' ? headwayPa - pressurePa : pressurePa - headwayPa;
  return wonPa >= HEADWAY_PA ? pressurePa : headwayPa;
}
