/** The chip with the probe program in it, and questions put to it over its line. */
import { type Chip, createChip } from '../../../sim/emulator/chip.ts';
import type { I2cDevice } from '../../../sim/emulator/i2c-bus.ts';
import { loadImage } from '../../../sim/emulator/image.ts';
import { PROBE_BAUD, PROBE_HEX } from './probe-image.ts';

export interface ProbedChip {
  readonly chip: Chip;
  /** Sends a command, a text or bytes, and gives what comes back within `ms` of board time. */
  readonly ask: (command: string | readonly number[], ms?: number) => number[];
  readonly devices: Map<number, I2cDevice>;
}

export const codes = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));

export function probedChip(): ProbedChip {
  const answered: number[] = [];
  const devices = new Map<number, I2cDevice>();
  const chip = createChip({
    image: loadImage(PROBE_HEX),
    onTransmit: (byte) => answered.push(byte),
    i2c: devices,
    hostBaud: PROBE_BAUD,
  });
  const ask: ProbedChip['ask'] = (command, ms = 10) => {
    answered.length = 0;
    chip.receive(typeof command === 'string' ? codes(command) : command);
    chip.run(ms / 1000);
    return [...answered];
  };
  ask('', 1);
  return { chip, ask, devices };
}

/** A command letter and its arguments. */
export const withBytes = (letter: string, ...bytes: number[]): number[] => [
  ...codes(letter),
  ...bytes,
];
