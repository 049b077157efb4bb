/**
 * The hard-wired cut-offs of the simulated unit: over-pressure switch, shield switch, emergency
 * stop, and the thermal cut-out on the lamp's heat sink. They sit between drivers and actuators, so they also stop a pump or a lamp whose driver is
 * stuck on. The controller reads the same switches independently, but for the cut-out, which nobody
 * reads.
 */
import { type Actuators, SAFE, type Switches } from '../../src/core/frame.ts';
import type { Chance } from '../random.ts';

/**
 * Relative to the atmosphere; demo. The lower closing pressure keeps the switch from chattering.
 */
const OVER_PRESSURE = { opensPa: 200_000, closesPa: 180_000 } as const;

/** State of the over-pressure switch at a gauge pressure, given its previous state. */
export function overPressureSwitchOpen(wasOpen: boolean, gaugePa: number): boolean {
  return gaugePa > (wasOpen ? OVER_PRESSURE.closesPa : OVER_PRESSURE.opensPa);
}

/** A bimetal disc, as in wiring/parts.md: 85 C within 5 K, and 25 K of hysteresis; demo. */
const CUT_OUT = { opensK: 358.15, withinK: 5, hysteresisK: 25 } as const;

/** Where this unit's own disc opens. */
export const drawCutOutK = (chance: Chance): number =>
  CUT_OUT.opensK + CUT_OUT.withinK * (2 * chance.uniform() - 1);

/** State of the cut-out at a temperature of the heat sink, given its previous state. */
export const cutOutOpen = (wasOpen: boolean, heatSinkK: number, opensK: number): boolean =>
  heatSinkK > (wasOpen ? opensK - CUT_OUT.hysteresisK : opensK);

export function cutOff(driven: Actuators, switches: Switches, lampTooHot: boolean): Actuators {
  if (switches.emergencyStopPressed) return SAFE;
  const { pumpRatio, ventOpen } = switches.overPressureTripped ? SAFE : driven;
  const { lampEnabled, lampRatio } = switches.shieldClosed && !lampTooHot ? driven : SAFE;
  return { selector: driven.selector, pumpRatio, ventOpen, lampEnabled, lampRatio };
}
