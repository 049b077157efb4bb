/**
 * The chip's pins as seen from outside: ports B, C and D and the six timer outputs, numbered as in
 * the pin map. It decides what an input reads (driven from outside, otherwise its pull-up,
 * otherwise low) and the duty of a timer output. The bench decides what is connected to the pins.
 */
import {
  AVRIOPort,
  type AVRTimerConfig,
  type CPU,
  PinState,
  portBConfig,
  portCConfig,
  portDConfig,
  timer0Config,
  timer1Config,
  timer2Config,
} from 'avr8js';
import type { TimerSchedule } from './timer-schedule.ts';

export type PinListener = (high: boolean, cycle: number) => void;

export interface ChipPins {
  /** What the outside drives on an input; null drives nothing, so that a pull-up shows. */
  readonly setLevel: (firmataPin: number, high: boolean | null) => void;
  /** High only while the chip drives it high: on the board a resistor pulls it down. */
  readonly level: (firmataPin: number) => boolean;
  readonly duty: (firmataPin: number) => number;
  readonly onPinChange: (firmataPin: number, listener: PinListener) => void;
}

export const TIMER_CONFIGS = [timer0Config, timer1Config, timer2Config] as const;

interface Output {
  readonly timer: 0 | 1 | 2;
  readonly half: 'A' | 'B';
}

/** Timer outputs by pin. */
const OUTPUTS: ReadonlyMap<number, Output> = new Map([
  [6, { timer: 0, half: 'A' }],
  [5, { timer: 0, half: 'B' }],
  [9, { timer: 1, half: 'A' }],
  [10, { timer: 1, half: 'B' }],
  [11, { timer: 2, half: 'A' }],
  [3, { timer: 2, half: 'B' }],
]);

const FIRST_OF_B = 8;
const FIRST_OF_C = 14;
const ANALOGUE_ONLY = 20;

export function createPins(cpu: CPU, schedules: readonly TimerSchedule[]): ChipPins {
  const ports = {
    b: createPort(cpu, portBConfig),
    c: createPort(cpu, portCConfig),
    d: createPort(cpu, portDConfig),
  };
  const locate = (pin: number): { port: Port; bit: number } => {
    if (!Number.isInteger(pin) || pin < 0 || pin >= ANALOGUE_ONLY) {
      throw new RangeError(`pin ${pin} has no digital level`);
    }
    if (pin < FIRST_OF_B) return { port: ports.d, bit: pin };
    if (pin < FIRST_OF_C) return { port: ports.b, bit: pin - FIRST_OF_B };
    return { port: ports.c, bit: pin - FIRST_OF_C };
  };
  const scheduleOf = (pin: number): TimerSchedule | undefined =>
    schedules[OUTPUTS.get(pin)?.timer ?? -1];
  const level = (pin: number): boolean => {
    const { port, bit } = locate(pin);
    scheduleOf(pin)?.catchUp();
    return port.io.pinState(bit) === PinState.High;
  };
  return {
    setLevel: (pin, high) => {
      const { port, bit } = locate(pin);
      port.drive(bit, high);
    },
    level,
    duty: (pin) => {
      const { port, bit } = locate(pin);
      const output = OUTPUTS.get(pin);
      const isOutput = ((cpu.data[port.io.portConfig.DDR] ?? 0) & (1 << bit)) !== 0;
      const duty = output === undefined || !isOutput ? null : pwmDuty(cpu, output);
      return duty ?? (level(pin) ? 1 : 0);
    },
    onPinChange: (pin, listener) => {
      const { port, bit } = locate(pin);
      scheduleOf(pin)?.watch();
      let before = port.io.pinState(bit) === PinState.High;
      port.io.addListener(() => {
        const high = port.io.pinState(bit) === PinState.High;
        if (high !== before) listener(high, cpu.cycles);
        before = high;
      });
    },
  };
}

interface Port {
  readonly io: AVRIOPort & { readonly portConfig: { readonly DDR: number; readonly PORT: number } };
  readonly drive: (bit: number, high: boolean | null) => void;
}

/** An undriven input follows its pull-up. */
function createPort(cpu: CPU, config: typeof portBConfig): Port {
  const io = new AVRIOPort(cpu, config) as Port['io'];
  let undriven = 0xff;
  const float = (): void => {
    for (let bit = 0; bit < 8; bit++) {
      if ((undriven & (1 << bit)) !== 0) io.setPin(bit, io.pinState(bit) === PinState.InputPullUp);
    }
  };
  io.addListener(float);
  return {
    io,
    drive: (bit, high) => {
      undriven = high === null ? undriven | (1 << bit) : undriven & ~(1 << bit);
      if (high === null) float();
      else io.setPin(bit, high);
    },
  };
}

interface Mode {
  readonly wave: 'fast' | 'phase-correct';
  readonly top: number | 'ocra' | 'icr';
}

/** Modes of waveform generation with a duty, by the WGM bits of the data sheet's tables. */
const MODES_8_BIT: Readonly<Record<number, Mode>> = {
  1: { wave: 'phase-correct', top: 0xff },
  3: { wave: 'fast', top: 0xff },
  5: { wave: 'phase-correct', top: 'ocra' },
  7: { wave: 'fast', top: 'ocra' },
};
const MODES_16_BIT: Readonly<Record<number, Mode>> = {
  1: { wave: 'phase-correct', top: 0xff },
  2: { wave: 'phase-correct', top: 0x1ff },
  3: { wave: 'phase-correct', top: 0x3ff },
  5: { wave: 'fast', top: 0xff },
  6: { wave: 'fast', top: 0x1ff },
  7: { wave: 'fast', top: 0x3ff },
  8: { wave: 'phase-correct', top: 'icr' },
  9: { wave: 'phase-correct', top: 'ocra' },
  10: { wave: 'phase-correct', top: 'icr' },
  11: { wave: 'phase-correct', top: 'ocra' },
  14: { wave: 'fast', top: 'icr' },
  15: { wave: 'fast', top: 'ocra' },
};
const CLEAR_ON_MATCH = 2;
const SET_ON_MATCH = 3;

/** Duty by the registers; null while the timer stands still or does not drive the pin. */
function pwmDuty(cpu: CPU, { timer, half }: Output): number | null {
  const config: AVRTimerConfig = TIMER_CONFIGS[timer];
  const byte = (address: number): number => cpu.data[address] ?? 0;
  const wide = config.bits === 16;
  const value = (address: number): number => byte(address) + (wide ? 256 * byte(address + 1) : 0);
  const controlA = byte(config.TCCRA);
  const controlB = byte(config.TCCRB);
  const output = (controlA >> (half === 'A' ? 6 : 4)) & 3;
  const wgm = (controlA & 3) | ((controlB & (wide ? 0x18 : 0x08)) >> 1);
  const mode = (wide ? MODES_16_BIT : MODES_8_BIT)[wgm];
  const running = config.dividers[(controlB & 7) as 0] !== 0;
  if (mode === undefined || !running) return null;
  if (output !== CLEAR_ON_MATCH && output !== SET_ON_MATCH) return null;
  const top =
    mode.top === 'ocra' ? value(config.OCRA) : mode.top === 'icr' ? value(config.ICR) : mode.top;
  const match = Math.min(top, value(half === 'A' ? config.OCRA : config.OCRB));
  const matched = mode.wave === 'fast' ? (match + 1) / (top + 1) : match / Math.max(1, top);
  return output === CLEAR_ON_MATCH ? matched : 1 - matched;
}
