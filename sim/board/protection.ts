/**
 * The hard-wired cut-offs of the simulated unit: over-pressure switch, shield switch, emergency
 * stop. They sit between drivers and actuators, so they also stop a pump or a lamp whose driver is
 * stuck on. The controller reads the same switches independently.
 */
import { type Actuators, SAFE, type Switches } from '../../src/core/frame.ts';

/**
 * Relative to the atmosphere; demo. The lower closing pressure keeps the switch from chattering.
 */
const OVER_PRESSURE = { opensPa: 200_000, closesPa: 180_000 } as const;

/** State of the over-pressure switch at a gauge pressure, given its previous state. */
export function overPressureSwitchOpen(wasOpen: boolean, gaugePa: number): boolean {
  return gaugePa > (wasOpen ? OVER_PRESSURE.closesPa : OVER_PRESSURE.opensPa);
}

export function cutOff(driven: Actuators, switches: Switches): Actuators {
  if (switches.emergencyStopPressed) return SAFE;
  const { pumpRatio, ventOpen } = switches.overPressureTripped ? SAFE : driven;
  const { lampEnabled, lampRatio } = switches.shieldClosed ? driven : SAFE;
  return { selector: driven.selector, pumpRatio, ventOpen, lampEnabled, lampRatio };
}
