/**
 * The chip settings made by the committed firmware image, against the formulas and tables of the
 * ATmega328P's datasheet, and the resulting behaviour of the chip. The image runs on avr8js, which
 * was written from the datasheet by others; registers are read at their datasheet addresses.
 */
import { BAUD } from '../../../hal/firmata/protocol.ts';
import { CLOCK_HZ } from '../../../sim/emulator/chip.ts';
import { PINS } from '../../../wiring/pin-map.ts';
import { BUSY, createBench } from '../../hal/firmware/bench.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

/** Data-space addresses. */
const UCSR0A = 0xc0;
const UBRR0L = 0xc4;
const UBRR0H = 0xc5;
const OCR2A = 0xb3;
const TWBR = 0xb8;
const ADCSRA = 0x7a;
const DOUBLE_SPEED = 0x02;
const ADC_PRESCALER = 0x07;
const TIMER_PRESCALER = 64;
const CONVERSION_CLOCKS = 13;

type Chip = ReturnType<typeof createBench>['chip'];

/** Read after the image has started everything. */
const started = (read: (chip: Chip) => number) => (): number => read(createBench().chip);

const divisor = (chip: Chip): number => (chip.peek(UBRR0H) << 8) + chip.peek(UBRR0L);
const perBit = (chip: Chip): number => ((chip.peek(UCSR0A) & DOUBLE_SPEED) !== 0 ? 8 : 16);

const SAMPLE_US = 20;

interface Pulses {
  readonly perS: number;
  readonly share: number;
}

let measuredPulses: Pulses | null = null;

/** Measured once for all rows. */
function pumpPulses(): Pulses {
  measuredPulses ??= measurePulses();
  return measuredPulses;
}

/** The pump's drive, sampled over most of a lease. */
function measurePulses(): Pulses {
  const { chip, want } = createBench();
  const leaseS = 0.4;
  want(BUSY);
  let [rises, high, samples, before] = [0, 0, 0, chip.level(PINS.pumpDrive.firmataPin)];
  for (const begunS = chip.timeS(); chip.timeS() - begunS < leaseS; samples++) {
    chip.run(SAMPLE_US * 1e-6);
    const now = chip.level(PINS.pumpDrive.firmataPin);
    if (now && !before) rises++;
    if (now) high++;
    before = now;
  }
  return { perS: rises / leaseS, share: high / samples };
}

/** From the last sign of life to the reset. */
function watchdogS(): number {
  const { chip, timeUntil } = createBench();
  const before = chip.resets();
  chip.hang();
  return timeUntil(() => chip.resets() > before, 1);
}

const DATASHEET = 'ATmega48A to 328P datasheet 8271';

const row = (
  what: string,
  read: (chip: Chip) => number,
  expected: number,
  unit: string,
  source: string,
): CheckRow => ({
  what,
  actual: started(read),
  expected,
  tolerance: 0,
  unit,
  source: `${DATASHEET}, ${source}`,
  obtained: 'from memory',
});

export const CHIP_TIMING: CheckGroup = {
  title: 'timing of the chip',
  rows: [
    {
      ...row('divisor for 250 000 baud, double speed', divisor, 7, 'UBRR0', ''),
      source:
        'table of baud rates at 16 MHz, 250k, U2X: UBRR 7, error 0.0 %, as in data sheets of the family',
      obtained: 'seen',
    },
    {
      ...row(
        'baud rate that this gives',
        (chip) => CLOCK_HZ / (perBit(chip) * (divisor(chip) + 1)),
        BAUD,
        'baud',
        'f/(8 (UBRR + 1)) at double speed; expected is what the host opens the port with',
      ),
      obtained: 'computed',
    },
    row(
      'period of the tick',
      (chip) => (1000 * TIMER_PRESCALER * (chip.peek(OCR2A) + 1)) / CLOCK_HZ,
      1,
      'ms',
      'clear on compare: f/(N (OCR + 1)), N = 64',
    ),
    row(
      'time of one conversion',
      (chip) => (1e6 * CONVERSION_CLOCKS * 2 ** (chip.peek(ADCSRA) & ADC_PRESCALER)) / CLOCK_HZ,
      104,
      'µs',
      '13 clocks of the converter, 50 to 200 kHz for ten bits',
    ),
    row(
      'clock of the two-wire bus',
      (chip) => CLOCK_HZ / (16 + 2 * chip.peek(TWBR)) / 1000,
      100,
      'kHz',
      'f/(16 + 2 TWBR), prescaler 1',
    ),
    {
      ...row('pulses of the pump drive', () => 0, CLOCK_HZ / (64 * 510), 'Hz', ''),
      actual: () => pumpPulses().perS,
      // One pulse more or less in 0.4 s.
      tolerance: 2.5,
      source: `${DATASHEET}, phase-correct PWM of 8 bits: f/(N 510), N = 64; counted on the emulator`,
    },
    {
      ...row('share of time that a duty of 128 is high', () => 0, 128 / 255, 'of 1', ''),
      actual: () => pumpPulses().share,
      // One sample more or less of a pulse of 2040 us.
      tolerance: SAMPLE_US / 2040,
      source: `${DATASHEET}, phase-correct PWM: OCR/255; measured on the emulator`,
    },
    {
      ...row('time until the watchdog resets a hung program', () => 0, 256, 'ms', ''),
      actual: () => 1000 * watchdogS(),
      // The main loop may have fed it up to a tick before.
      tolerance: 1.1,
      source: `${DATASHEET}, 32 K cycles of 128 kHz, printed as 0.25 s`,
    },
  ],
};
