/**
 * The devices on the two-wire bus, with the time of a transfer: nine bit times a byte, one for a
 * start or a stop. Whether a device answers is determined at each call, so that one can be
 * unplugged. Reads return ones: nothing on this bus is read.
 */
import type { AVRTWI, CPU, TWIEventHandler } from 'avr8js';
import { finishStop } from './avr8js-workarounds.ts';

export interface I2cDevice {
  readonly write: (byte: number) => void;
  readonly stop?: () => void;
}
export type I2cDevices = ReadonlyMap<number, I2cDevice>;

const CLOCK_HZ = 16_000_000;
const BITS_PER_BYTE = 9;
const NOTHING_DRIVES = 0xff;

export function connectBus(cpu: CPU, twi: AVRTWI, devices: I2cDevices): void {
  let called: number | null = null;
  const device = (): I2cDevice | undefined => (called === null ? undefined : devices.get(called));
  const after = (bits: number, done: () => void): void => {
    cpu.addClockEvent(done, Math.round((bits * CLOCK_HZ) / twi.sclFrequency));
  };
  const handler: TWIEventHandler = {
    start: () => {
      called = null;
      after(1, () => twi.completeStart());
    },
    stop: () => {
      after(1, () => {
        device()?.stop?.();
        called = null;
        finishStop(cpu, twi);
      });
    },
    connectToSlave: (address) => {
      after(BITS_PER_BYTE, () => {
        called = devices.has(address) ? address : null;
        twi.completeConnect(called !== null);
      });
    },
    writeByte: (byte) => {
      after(BITS_PER_BYTE, () => {
        device()?.write(byte);
        twi.completeWrite(device() !== undefined);
      });
    },
    readByte: () => after(BITS_PER_BYTE, () => twi.completeRead(NOTHING_DRIVES)),
  };
  twi.eventHandler = handler;
}
