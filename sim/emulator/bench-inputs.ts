/**
 * What plant and person apply to the chip's inputs: sensor voltages, switch contacts and the button
 * ladder. It converts counts and positions into volts and levels; the rig's faults decide which
 * sensor is wrong. A test may hold a channel at given counts.
 */
import { type Button, CHANNELS, type Channel, type Switches } from '../../src/core/frame.ts';
import { PINS, type PinName } from '../../wiring/pin-map.ts';
import { ladderRatio } from '../board/ladder.ts';
import type { Fault } from '../faults/faults.ts';
import type { Chip } from './chip.ts';

const FULL_VOLTS = 5;
const COUNTS = 1024;
/** How long a finger presses a button, and the pause before the next press; demo. */
const PRESS_MS = 80;
const RELEASE_MS = 60;

/** The middle of a count, so that the converter reads exactly that count. */
export const voltsOfCounts = (counts: number): number => ((counts + 0.5) / COUNTS) * FULL_VOLTS;

export function setPinVolts(chip: Chip, name: PinName, volts: number): void {
  const { adcChannel } = PINS[name];
  if (adcChannel === null) throw new RangeError(`${name} is not on an analogue input`);
  chip.setVolts(adcChannel, volts);
}

export function applyVolts(chip: Chip, counts: Readonly<Record<Channel, number>>): void {
  for (const channel of CHANNELS) {
    setPinVolts(chip, channel, voltsOfCounts(counts[channel]));
  }
}

/** An open contact drives nothing: only a pull-up makes it read high. */
const contact = (closed: boolean): false | null => (closed ? false : null);

export function applySwitches(chip: Chip, switches: Switches): void {
  const { shieldClosed, overPressureTripped, emergencyStopPressed } = switches;
  chip.setLevel(PINS.emergencyStop.firmataPin, contact(!emergencyStopPressed));
  chip.setLevel(PINS.overPressureSwitch.firmataPin, contact(!overPressureTripped));
  chip.setLevel(PINS.shieldSwitch.firmataPin, contact(shieldClosed));
}

/** The ladder's voltage with one button down, or none, and with what is wrong with it. */
export const ladderVolts = (button: Button | null, faults: readonly Fault[]): number =>
  FULL_VOLTS * ladderRatio(button === null ? [] : [button], faults);

export interface Fingers {
  readonly press: (button: Button) => void;
  /** One millisecond: the button that is now down. */
  readonly step: () => Button | null;
}

/** One finger: presses come one after the other, each long enough to be detected. */
export function createFingers(): Fingers {
  const waiting: Button[] = [];
  let down: Button | null = null;
  let leftMs = 0;
  return {
    press: (button) => {
      waiting.push(button);
    },
    step: () => {
      if (leftMs > 0) leftMs--;
      if (leftMs > 0) return down;
      if (down !== null) {
        down = null;
        leftMs = RELEASE_MS;
        return null;
      }
      down = waiting.shift() ?? null;
      if (down !== null) leftMs = PRESS_MS;
      return down;
    },
  };
}
