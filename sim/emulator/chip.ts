/**
 * An ATmega328P at 16 MHz that runs a firmware image: avr8js's processor, ports, timers, serial
 * line, converter, two-wire bus and watchdog, assembled and corrected. It decides how board time
 * passes (a sleeping processor skips to its next clock event) and what a reset does. The bench
 * decides what is wired to the pins; the traps of avr8js are in `avr8js-workarounds.ts`.
 */
import {
  AVRADC,
  AVRClock,
  AVRTimer,
  AVRTWI,
  AVRUSART,
  AVRWatchdog,
  adcConfig,
  avrInstruction,
  CPU,
  twiConfig,
  usart0Config,
  watchdogConfig,
} from 'avr8js';
import { BAUD } from '../../hal/firmata/protocol.ts';
import { PINS } from '../../wiring/pin-map.ts';
import {
  clearConversionFlagByOne,
  clearRegisters,
  clearTimerFlagsByOne,
  forceWatchdogAfterItsReset,
  hidden,
  keepEmptyFlag,
  keepLineFlags,
  keepReceiveFlag,
  keepTwiStatus,
  type Peripherals,
  resetOnlyWhenAsked,
  resetTimer,
  restartWatchdog,
  runsOneMoreInstruction,
} from './avr8js-workarounds.ts';
import { type ChipFaults, createFaults } from './chip-faults.ts';
import { createLine } from './chip-line.ts';
import { type ChipPins, createPins, TIMER_CONFIGS } from './chip-pins.ts';
import { connectBus, dataLineLow, type I2cDevices } from './i2c-bus.ts';
import { FLASH_BYTES } from './image.ts';
import { scheduleTimer } from './timer-schedule.ts';

export const CLOCK_HZ = 16_000_000;
const SRAM_BYTES = 2048;
const SRAM_FIRST = 0x100;
const ADC_CHANNELS = 8;
const FULL_VOLTS = 5;
/** Memory contents after power-up are undefined, and hardly zeros. */
const POWER_UP_BYTE = 0xa5;

const SLEEP = 0x9588;
const SMCR = 0x53;
const SLEEP_ENABLE = 0x01;
const SLEEP_MODE = 0x0e;
const SREG = 0x5f;
const INTERRUPTS_ON = 0x80;
const INTERRUPTS_OFF = 0x7f;
const POWER_ON_FLAG = 0x01;
const WATCHDOG_FLAG = 0x08;

export interface Chip extends ChipPins {
  /** Board time since creation; continues across resets. */
  readonly timeS: () => number;
  readonly cycles: () => number;
  /** Lets board time pass. */
  readonly run: (seconds: number) => void;
  /** From host to board: queued, and paced at the line's baud rate. */
  readonly receive: (bytes: Iterable<number>) => void;
  readonly setVolts: (adcChannel: number, volts: number) => void;
  /** The program loops for ever with interrupts off. */
  readonly hang: () => void;
  readonly poke: (address: number, value: number) => void;
  readonly peek: (address: number) => number;
  readonly powerCycle: () => void;
  /** Resets since creation, by the watchdog or by power. */
  readonly resets: () => number;
  readonly faults: ChipFaults;
}

export interface ChipOptions {
  readonly image: Uint16Array;
  readonly onTransmit: (byte: number) => void;
  readonly i2c?: I2cDevices;
  /** Baud rate of the host's end of the line. */
  readonly hostBaud?: number;
}

/** What the processor does when it is not running its program. */
type Pause = 'none' | 'asleep' | 'hung';

interface Core {
  readonly cpu: CPU;
  readonly parts: Peripherals;
  readonly timers: readonly AVRTimer[];
  readonly afterReset: (() => void)[];
  readonly resetCpu: () => void;
  pause: Pause;
  resetAsked: boolean;
  resets: number;
}

export function createChip({
  image,
  onTransmit,
  i2c = new Map(),
  hostBaud = BAUD,
}: ChipOptions): Chip {
  const flash = new Uint16Array(FLASH_BYTES / 2).fill(0xffff);
  flash.set(image);
  const cpu = new CPU(flash, SRAM_BYTES);
  const parts = createParts(cpu);
  const timers = TIMER_CONFIGS.map((config) => new AVRTimer(cpu, config));
  const resetCpu = resetOnlyWhenAsked(cpu, () => {
    core.resetAsked = true;
  });
  const begun = { pause: 'none', resetAsked: false, resets: 0 } as const;
  const core: Core = { cpu, parts, timers, afterReset: [], resetCpu, ...begun };
  correct(cpu, parts);
  const schedules = TIMER_CONFIGS.map((config, i) =>
    scheduleTimer(cpu, timers[i] as AVRTimer, config),
  );
  connectBus(cpu, parts.twi, i2c, dataLineLow(cpu));
  const line = createLine(cpu, parts.usart, { clockHz: CLOCK_HZ, hostBaud }, onTransmit);
  core.afterReset.push(line.resume);
  const pins = createPins(cpu, schedules);
  core.afterReset.push(() => pullUpBus(pins));
  powerUp(core);
  let untilCycle = 0;
  return {
    ...pins,
    timeS: () => cpu.cycles / CLOCK_HZ,
    cycles: () => cpu.cycles,
    run: (seconds) => {
      // Counted in whole cycles, so that the overshoot of one run is deducted from the next.
      untilCycle += Math.round(seconds * CLOCK_HZ);
      runUntil(core, untilCycle);
    },
    receive: line.receive,
    setVolts: (channel, volts) => {
      if (!(channel >= 0 && channel < ADC_CHANNELS)) throw new RangeError(`channel ${channel}`);
      parts.adc.channelValues[channel] = Math.min(FULL_VOLTS, Math.max(0, volts));
    },
    hang: () => {
      core.pause = 'hung';
    },
    poke: (address, value) => cpu.writeData(address, value),
    peek: (address) => cpu.data[address] ?? 0,
    powerCycle: () => {
      core.resets += 1;
      powerUp(core);
    },
    resets: () => core.resets,
    faults: createFaults(cpu, parts.adc, () => {
      core.pause = 'none';
    }),
  };
}

/** The two-wire bus rests high. */
function pullUpBus({ setLevel }: ChipPins): void {
  setLevel(PINS.displayData.firmataPin, true);
  setLevel(PINS.displayClock.firmataPin, true);
}

function createParts(cpu: CPU): Peripherals {
  return {
    adc: new AVRADC(cpu, adcConfig),
    twi: new AVRTWI(cpu, twiConfig, CLOCK_HZ),
    usart: new AVRUSART(cpu, usart0Config, CLOCK_HZ),
    watchdog: new AVRWatchdog(cpu, watchdogConfig, new AVRClock(cpu, CLOCK_HZ)),
  };
}

function correct(cpu: CPU, { usart }: Peripherals): void {
  keepReceiveFlag(cpu, usart);
  keepLineFlags(cpu);
  keepEmptyFlag(usart);
  clearConversionFlagByOne(cpu);
  keepTwiStatus(cpu);
  forceWatchdogAfterItsReset(cpu);
  for (const { TIFR } of TIMER_CONFIGS) clearTimerFlagsByOne(cpu, TIFR);
}

function powerUp(core: Core): void {
  reset(core);
  core.cpu.data.fill(POWER_UP_BYTE, SRAM_FIRST, SRAM_FIRST + SRAM_BYTES);
  core.cpu.data[watchdogConfig.MCUSR] = POWER_ON_FLAG;
}

function resetByWatchdog(core: Core): void {
  const { MCUSR } = watchdogConfig;
  const flags = (core.cpu.data[MCUSR] ?? 0) | WATCHDOG_FLAG;
  core.resets += 1;
  reset(core);
  core.cpu.data[MCUSR] = flags;
  restartWatchdog(core.cpu);
}

function reset(core: Core): void {
  clearRegisters(core.cpu, core.parts);
  core.resetCpu();
  for (const timer of core.timers) resetTimer(timer);
  core.pause = 'none';
  core.resetAsked = false;
  for (const resume of core.afterReset) resume();
}

function runUntil(core: Core, untilCycle: number): void {
  const { cpu } = core;
  while (cpu.cycles < untilCycle) {
    if (core.pause === 'none') runProgram(core, untilCycle);
    else passTime(core, untilCycle);
    if (core.resetAsked) resetByWatchdog(core);
  }
}

// A local name: the package's export is a getter, and this is called millions of times.
const execute = avrInstruction;

/** Runs instructions until the time is up, the program sleeps, or a reset is due. */
function runProgram(core: Core, untilCycle: number): void {
  const { cpu } = core;
  const { progMem, data } = cpu;
  const events = hidden(cpu);
  while (cpu.cycles < untilCycle && !core.resetAsked) {
    const opcode = progMem[cpu.pc] ?? 0;
    execute(cpu);
    if (opcode === SLEEP && fallsAsleep(cpu)) {
      core.pause = 'asleep';
      return;
    }
    if (runsOneMoreInstruction(opcode)) continue;
    const event = events.nextClockEvent;
    const isDue = event !== null && event.cycles <= cpu.cycles;
    // Most instructions need neither: avoid the call.
    if (isDue || (cpu.nextInterrupt >= 0 && ((data[SREG] ?? 0) & INTERRUPTS_ON) !== 0)) cpu.tick();
  }
}

function fallsAsleep(cpu: CPU): boolean {
  const control = cpu.data[SMCR] ?? 0;
  if ((control & SLEEP_ENABLE) === 0) return false;
  if ((control & SLEEP_MODE) !== 0) throw new Error('only the idle sleep mode is emulated');
  return true;
}

/**
 * Asleep or hung: from clock event to clock event, until an interrupt is served or a reset is due.
 */
function passTime(core: Core, untilCycle: number): void {
  const { cpu } = core;
  const { pc } = cpu;
  if (core.pause === 'hung') cpu.data[SREG] = (cpu.data[SREG] ?? 0) & INTERRUPTS_OFF;
  for (;;) {
    cpu.tick();
    if (cpu.pc !== pc) core.pause = 'none';
    if (cpu.pc !== pc || core.resetAsked || cpu.cycles >= untilCycle) return;
    const next = hidden(cpu).nextClockEvent?.cycles ?? untilCycle;
    cpu.cycles = Math.max(cpu.cycles, Math.min(next, untilCycle));
  }
}
