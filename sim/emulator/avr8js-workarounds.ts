/**
 * Corrects differences between avr8js 0.21.1 and the silicon that firmware can notice: one function
 * per trap, each with a test that fails without it. Nothing here is a model of its own; it only
 * corrects flags and leftovers. `chip.ts` applies all of them.
 *
 * Not corrected, so firmware must not rely on it: auto-triggered conversions, sleep modes other
 * than idle, two-wire slave modes, a transmit buffer behind the shift register, and fast PWM (one
 * count short, and stuck high at 0; phase-correct PWM is exact).
 */
import {
  type AVRADC,
  type AVRTimer,
  type AVRTWI,
  type AVRUSART,
  type AVRWatchdog,
  adcConfig,
  type CPU,
  type CPUMemoryHook,
  twiConfig,
  usart0Config,
  watchdogConfig,
} from 'avr8js';

/** Internals of avr8js that its types hide, without another way to reach them. */
export interface HiddenCpu {
  readonly nextClockEvent: { readonly cycles: number } | null;
}
export const hidden = (cpu: CPU): HiddenCpu => cpu as unknown as HiddenCpu;

type Interrupt = Parameters<CPU['queueInterrupt']>[0];

/** Wraps a peripheral's write hook; the inner hook reports whether it wrote. */
export function wrapWrite(
  cpu: CPU,
  address: number,
  around: (value: number, write: (value: number) => void) => void,
): void {
  const inner: CPUMemoryHook | undefined = cpu.writeHooks[address];
  cpu.writeHooks[address] = (value, _oldValue, at, mask) => {
    around(value, (corrected) => {
      const done = inner?.(corrected, cpu.data[address] ?? 0, at, mask) ?? false;
      if (done !== true) cpu.data[address] = corrected;
    });
    return true;
  };
}

const RXC = 0x80;
const UDRE = 0x20;
const RXCIE = 0x80;
const RXEN = 0x10;
const LINE_FLAGS = RXC | UDRE | 0x1c;

/** Trap: any write to UCSR0B clears a pending receive flag, and the byte is lost. */
export function keepReceiveFlag(cpu: CPU, usart: AVRUSART): void {
  const { UCSRA, UCSRB } = usart0Config;
  const receive = (usart as unknown as { readonly RXC: Interrupt }).RXC;
  wrapWrite(cpu, UCSRB, (value, write) => {
    const pending = (cpu.data[UCSRA] ?? 0) & RXC;
    write(value);
    if (pending === 0 || (value & RXEN) === 0) return;
    cpu.data[UCSRA] = (cpu.data[UCSRA] ?? 0) | RXC;
    if ((value & RXCIE) !== 0) cpu.queueInterrupt(receive);
  });
}

/** Trap: a write to UCSR0A, to clear TXC for example, also clears the flags that are read-only. */
export function keepLineFlags(cpu: CPU): void {
  const { UCSRA } = usart0Config;
  wrapWrite(cpu, UCSRA, (value, write) => {
    const kept = (cpu.data[UCSRA] ?? 0) & LINE_FLAGS;
    write(value);
    cpu.data[UCSRA] = (cpu.data[UCSRA] ?? 0) | kept;
  });
}

/** Trap: entering the handler clears UDRE; the silicon keeps it until UDR0 is written. */
export function keepEmptyFlag(usart: AVRUSART): void {
  const { UDRE: empty } = usart as unknown as { readonly UDRE: Interrupt };
  empty.constant = true;
}

const ADIF = 0x10;

/** Trap: a one written to ADIF sets the flag, and a zero clears it; the silicon does the reverse. */
export function clearConversionFlagByOne(cpu: CPU): void {
  const { ADCSRA } = adcConfig;
  wrapWrite(cpu, ADCSRA, (value, write) => {
    const kept = (cpu.data[ADCSRA] ?? 0) & ~value & ADIF;
    write((value & ~ADIF) | kept);
  });
}

const TWI_STATUS = 0xf8;
const TWI_IDLE = 0xf8;

/**
 * Trap: setting the prescaler overwrites the status, and the next start reads as a repeated one.
 */
export function keepTwiStatus(cpu: CPU): void {
  const { TWSR } = twiConfig;
  wrapWrite(cpu, TWSR, (value, write) => {
    write(((cpu.data[TWSR] ?? 0) & TWI_STATUS) | (value & ~TWI_STATUS));
  });
}

/** Trap: a finished stop raises TWINT, which on silicon stays low until the next start. */
export function finishStop(cpu: CPU, twi: AVRTWI): void {
  twi.completeStop();
  const { twiInterrupt: address, TWCR } = twiConfig;
  const interrupt = { address, flagRegister: TWCR, flagMask: 0x80 };
  cpu.clearInterrupt({ ...interrupt, enableRegister: TWCR, enableMask: 0x01 });
}

/** Trap: a write to a timer's flags clears those written as zero, though not their interrupts. */
export function clearTimerFlagsByOne(cpu: CPU, flagRegister: number): void {
  wrapWrite(cpu, flagRegister, (value, write) => {
    const kept = (cpu.data[flagRegister] ?? 0) & ~value;
    write(value);
    cpu.data[flagRegister] = kept;
  });
}

const WDRF = 0x08;
const WDE = 0x08;
const WDCE = 0x10;

/** Trap: WDRF does not force WDE; on silicon a program that leaves it set cannot stop the watchdog. */
export function forceWatchdogAfterItsReset(cpu: CPU): void {
  const { MCUSR, WDTCSR } = watchdogConfig;
  wrapWrite(cpu, WDTCSR, (value, write) => {
    const forced = ((cpu.data[MCUSR] ?? 0) & WDRF) !== 0;
    write(forced ? value | WDE : value);
  });
}

/**
 * Trap: the watchdog resets the processor from inside its own clock event. Earlier events then
 * reappear, and those that the reset schedules are lost. So it only requests the reset here, which
 * happens between two instructions.
 */
export function resetOnlyWhenAsked(cpu: CPU, ask: () => void): () => void {
  const reset = cpu.reset.bind(cpu);
  cpu.reset = ask;
  return reset;
}

const SEI = 0x9478;
const RETI = 0x9518;

/**
 * Trap: a pending interrupt is served directly after SEI or RETI. Silicon runs one more instruction
 * first, and `sei; sleep` needs that: otherwise the wake-up comes before the sleep and is missed.
 */
export const runsOneMoreInstruction = (opcode: number): boolean =>
  opcode === SEI || opcode === RETI;

export interface Peripherals {
  readonly adc: AVRADC;
  readonly twi: AVRTWI;
  readonly usart: AVRUSART;
  readonly watchdog: AVRWatchdog;
}

const IO_FIRST = 0x20;
const IO_END = 0x100;
/** Writing to these does more than set a register: it sends a byte or toggles outputs. */
const NOT_TO_BE_CLEARED: readonly number[] = [usart0Config.UDR, 0x23, 0x26, 0x29];

/**
 * Trap: a reset leaves I/O registers and unfinished work as they were: pins keep driving, and a
 * pending conversion, two-wire transfer or watchdog blocks the next one for ever. Zeros are written
 * through the hooks, so that pins and overrides follow.
 */
export function clearRegisters(cpu: CPU, { adc, twi, usart, watchdog }: Peripherals): void {
  const { MCUSR, WDTCSR } = watchdogConfig;
  adc.completeADCRead(0);
  twi.completeStop();
  cpu.data[MCUSR] = 0;
  cpu.writeData(WDTCSR, WDCE | WDE);
  for (const address of Object.keys(cpu.writeHooks).map(Number)) {
    const isRegister = address >= IO_FIRST && address < IO_END;
    if (isRegister && !NOT_TO_BE_CLEARED.includes(address)) cpu.writeData(address, 0);
  }
  cpu.data.fill(0, IO_FIRST, IO_END);
  usart.reset();
  cpu.data[twiConfig.TWSR] = TWI_IDLE;
  (watchdog as unknown as { scheduled: boolean }).scheduled = false;
}

/**
 * After its own reset the watchdog keeps running, at its shortest time, until the program stops it.
 */
export function restartWatchdog(cpu: CPU): void {
  cpu.writeData(watchdogConfig.WDTCSR, WDCE | WDE);
  cpu.writeData(watchdogConfig.WDTCSR, WDE);
}

/**
 * Trap: a timer that was reset counts down; in phase-correct modes it then starts with a full turn.
 */
export function resetTimer(timer: AVRTimer): void {
  timer.reset();
  (timer as unknown as { countingUp: boolean }).countingUp = true;
}
