/**
 * Faults of the chip itself, for tests of what the firmware makes of them: a converter that stands
 * still, another reference, a changed bit of flash, an output shorted to a rail, an interrupt that
 * nothing asked for, a reset whose cause a bootloader has wiped out. Changed bits of RAM and
 * registers need no help: poke and peek.
 */
import { type AVRADC, avrInterrupt, type CPU, portBConfig, portDConfig } from 'avr8js';

export interface ChipFaults {
  /** Conversions begin and never end. */
  readonly stallConverter: (stalled: boolean) => void;
  /** Volts of the supply that the converter compares with, 5 when sound. */
  readonly setConverterSupply: (volts: number) => void;
  readonly flipFlash: (byteAddress: number, bit: number) => void;
  /** What an output of port B or D reads, whatever the chip drives; null for a sound one. */
  readonly shortPin: (firmataPin: number, high: boolean | null) => void;
  /** Enters the interrupt with this number, as the data sheet counts them, from 1. */
  readonly interrupt: (vector: number) => void;
  /** The program begins anew, and nothing says why. */
  readonly restartUnexplained: () => void;
}

const FIRST_OF_B = 8;
const WORDS_A_VECTOR = 2;

export function createFaults(cpu: CPU, adc: AVRADC, wake: () => void): ChipFaults {
  const convert = adc.onADCRead;
  const shorted = { b: { mask: 0, levels: 0 }, d: { mask: 0, levels: 0 } };
  const shortPort = (address: number, { mask, levels }: { mask: number; levels: number }): void => {
    cpu.readHooks[address] = () => ((cpu.data[address] ?? 0) & ~mask) | levels;
  };
  return {
    stallConverter: (stalled) => {
      adc.onADCRead = stalled ? () => {} : convert;
      if (!stalled) adc.completeADCRead(0);
    },
    setConverterSupply: (volts) => {
      adc.avcc = volts;
    },
    flipFlash: (byteAddress, bit) => {
      const mask = 1 << (bit + 8 * (byteAddress & 1));
      cpu.progMem[byteAddress >> 1] = (cpu.progMem[byteAddress >> 1] ?? 0) ^ mask;
    },
    shortPin: (pin, high) => {
      const port = pin < FIRST_OF_B ? shorted.d : shorted.b;
      const bit = 1 << (pin % FIRST_OF_B);
      port.mask = high === null ? port.mask & ~bit : port.mask | bit;
      port.levels = high === true ? port.levels | bit : port.levels & ~bit;
      shortPort(pin < FIRST_OF_B ? portDConfig.PIN : portBConfig.PIN, port);
    },
    interrupt: (vector) => {
      wake();
      avrInterrupt(cpu, (vector - 1) * WORDS_A_VECTOR);
    },
    restartUnexplained: () => {
      wake();
      cpu.pc = 0;
      cpu.data[SREG] = 0;
    },
  };
}

const SREG = 0x5f;
