/**
 * The devices on the two-wire bus, with the time of a transfer: nine bit times a byte, one for a
 * start or a stop. Whether a device answers is determined at each call, so that one can be
 * unplugged. Reads return ones: nothing on this bus is read.
 */
import { type AVRTWI, type CPU, portCConfig, type TWIEventHandler, twiConfig } from 'avr8js';
import { finishStop, wrapWrite } from './avr8js-workarounds.ts';

export interface I2cDevice {
  readonly write: (byte: number) => void;
  readonly stop?: () => void;
}
export type I2cDevices = ReadonlyMap<number, I2cDevice>;

const CLOCK_HZ = 16_000_000;
const BITS_PER_BYTE = 9;
const NOTHING_DRIVES = 0xff;

const TWI_ENABLED = 0x04;
const DATA_LINE = 1 << 4;

/** Whether anybody holds the data line low. */
export const dataLineLow = (cpu: CPU) => (): boolean =>
  ((cpu.data[portCConfig.PIN] ?? 0) & DATA_LINE) === 0;

export function connectBus(
  cpu: CPU,
  twi: AVRTWI,
  devices: I2cDevices,
  isHeldLow: () => boolean,
): void {
  let called: number | null = null;
  /** Counts the times that the peripheral was switched off. */
  let session = 0;
  const device = (): I2cDevice | undefined => (called === null ? undefined : devices.get(called));
  const after = (bits: number, done: () => void): void => {
    const begunIn = session;
    cpu.addClockEvent(
      () => {
        if (session === begunIn) done();
      },
      Math.round((bits * CLOCK_HZ) / twi.sclFrequency),
    );
  };
  // Switched off, the peripheral forgets what it was about, which avr8js's does not.
  wrapWrite(cpu, twiConfig.TWCR, (value, write) => {
    write(value);
    if ((value & TWI_ENABLED) !== 0) return;
    session += 1;
    finishStop(cpu, twi);
  });
  const handler: TWIEventHandler = {
    start: () => {
      called = null;
      // The bus is not free: the start never comes.
      if (!isHeldLow()) after(1, () => twi.completeStart());
    },
    stop: () => {
      if (isHeldLow()) return;
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
