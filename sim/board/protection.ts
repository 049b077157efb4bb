/**
 * The hard-wired cut-offs of the simulated unit: over-pressure switch, shield switch, emergency stop.
 * They sit between drivers and actuators, so they also stop a pump or a lamp whose driver is stuck
 * on. What the controller thinks of the same switches is its own affair.
 */
import { type Actuators, SAFE, type Switches } from '../../src/core/frame.ts';

/** Over the atmosphere; demo. Closing again lower keeps the switch from chattering at its limit. */
const OVER_PRESSURE = { opensPa: 200_000, closesPa: 180_000 } as const;

/** State of the over-pressure switch at a pressure over the atmosphere, given its state before. */
export function overPressureSwitchOpen(wasOpen: boolean, gaugePa: number): boolean {
  return gaugePa > (wasOpen ? OVER_PRESSURE.closesPa : OVER_PRESSURE.opensPa);
}

export function cutOff(driven: Actuators, switches: Switches): Actuators {
  if (switches.emergencyStopPressed) return SAFE;
  const { pumpRatio, ventOpen } = switches.overPressureTripped ? SAFE : driven;
  const { lampEnabled, lampRatio } = switches.shieldClosed ? driven : SAFE;
  return { selector: driven.selector, pumpRatio, ventOpen, lampEnabled, lampRatio };
}
