/**
 * The set-up of the chip: bits of its registers flipped while the outputs act. Within two ticks the
 * register holds what it should again, everything is safe, and the trip has a name. A stopped tick
 * is found by the watchdog.
 */
import { expect, test } from 'vitest';
import {
  type Bench,
  BUSY,
  CLEAR,
  createBench,
  intervalMessage,
  PINS_BUSY,
  type Trip,
} from '../bench.ts';
import { TOLERATED_S, TWO_TICKS_S, timeUntilOff, tripsAndStays } from './harm.ts';

const busy = (): Bench => {
  const bench = createBench();
  bench.want(BUSY);
  expect(bench.pins()).toEqual(PINS_BUSY);
  return bench;
};
const flip = ({ chip }: Bench, address: number, bit: number) =>
  chip.poke(address, chip.peek(address) ^ (1 << bit));

/** Registers by their place in data memory (data sheet, register summary), and bits that matter. */
const HELD: readonly (readonly [string, number, readonly number[]])[] = [
  ['DDRB, directions of lamp and pump', 0x24, [0, 1, 2]],
  ['DDRD, directions of vent and selector', 0x2a, [6, 7]],
  ['PORTD, pull-ups of the safety switches', 0x2b, [2, 3, 4]],
  ['TCCR2A, wave of the tick', 0xb0, [0, 1, 6]],
  ['TCCR2B, rate of the tick', 0xb1, [0, 1]],
  ['OCR2A, length of the tick', 0xb3, [0, 1, 4, 7]],
  ['TCCR1A, wave of the duties', 0x80, [0, 1]],
  ['TCCR1B, rate of the duties', 0x81, [0, 1, 3]],
  ['ADCSRA, rate of the converter', 0x7a, [0, 1, 7]],
  ['ADCSRB', 0x7b, [6]],
  ['PRR, power of the peripherals', 0x64, [0, 6]],
  ['MCUCR, all pull-ups off', 0x55, [4]],
  ['TIMSK0, an interrupt that nothing serves', 0x6e, [0]],
  ['PCICR, an interrupt that nothing serves', 0x68, [2]],
  ['UCSR0C, form of the bytes', 0xc2, [3]],
  ['UBRR0L, rate of the line', 0xc4, [4]],
  ['TWBR, rate of the display bus', 0xb8, [2]],
];

test.each(HELD)('%s: mended, safe and named within two ticks', (_, address, bits) => {
  for (const bit of bits) {
    const bench = busy();
    const sound = bench.chip.peek(address);
    flip(bench, address, bit);
    expect(timeUntilOff(bench, 0.02)).toBeLessThan(TWO_TICKS_S + 0.002);
    const mask = 1 << bit;
    expect(bench.chip.peek(address) & mask).toBe(sound & mask);
    expect(tripsAndStays(bench)).toContain('registers');
    bench.want(CLEAR);
    bench.want(BUSY);
    expect(bench.pins()).toEqual(PINS_BUSY);
  }
});

test.each([
  ['TIMSK1, match of the duties', 0x6f, 1],
  ['EIMSK, low level of the emergency stop', 0x3d, 0],
] as const)('%s, an interrupt that is due as soon as it is on: trapped', (_, address, bit) => {
  const bench = busy();
  flip(bench, address, bit);
  expect(timeUntilOff(bench, 0.02)).toBeLessThan(TWO_TICKS_S + 0.002);
  bench.chip.run(0.1);
  bench.send(intervalMessage(10));
  expect(tripsAndStays(bench)).toEqual(['watchdog', 'program']);
});

/** Data-memory places of the tick's interrupt mask and clock. */
const TIMSK2 = 0x70;
const TCCR2B = 0xb1;

test.each([
  ['its interrupt off', TIMSK2, 1],
  ['its clock off', TCCR2B, 2],
] as const)('a tick with %s is found by the watchdog', (_, address, bit) => {
  const bench = busy();
  const resets = bench.chip.resets();
  flip(bench, address, bit);
  expect(timeUntilOff(bench, 1)).toBeLessThan(TOLERATED_S);
  expect(bench.chip.resets()).toBe(resets + 1);
});

const ADMUX = 0x7c;
test('a converter that is led to another input loses that scan, and no limit is judged by it', () => {
  for (let bit = 0; bit < 8; bit++) {
    const bench = busy();
    bench.setCounts('irradiance', 1000);
    for (let i = 0; i < 7; i++) {
      flip(bench, ADMUX, bit);
      bench.chip.run(0.00313);
    }
    expect(bench.trips()).toEqual([]);
    expect(bench.lastFrame().pressure).toBe(300);
  }
});

interface PinRow {
  readonly pin: number;
  readonly outputs: typeof BUSY;
  readonly shortedHigh: boolean;
}
const OFF = { flags: 2, pump: 0, lamp: 0 };
const SHORTED: readonly (readonly [string, PinRow])[] = [
  ['vent to ground while closed', { pin: 6, outputs: BUSY, shortedHigh: false }],
  ['selector to ground', { pin: 7, outputs: BUSY, shortedHigh: false }],
  ['lamp enable to ground', { pin: 8, outputs: BUSY, shortedHigh: false }],
  ['vent to 5 V while open', { pin: 6, outputs: OFF, shortedHigh: true }],
  ['lamp enable to 5 V', { pin: 8, outputs: OFF, shortedHigh: true }],
  ['pump to 5 V while off', { pin: 9, outputs: OFF, shortedHigh: true }],
  ['lamp drive to 5 V while off', { pin: 10, outputs: OFF, shortedHigh: true }],
  ['pump to ground at full', { pin: 9, outputs: { ...BUSY, pump: 255 }, shortedHigh: false }],
];

test.each(SHORTED)('an output that does not obey, %s: everything else is safe', (_, row) => {
  const bench = createBench();
  bench.want(row.outputs);
  bench.chip.faults.shortPin(row.pin, row.shortedHigh);
  bench.chip.run(TWO_TICKS_S);
  const trips: Trip[] = bench.trips();
  expect(trips).toContain('output-pins');
  expect(tripsAndStays(bench)).toContain('output-pins');
  bench.want(CLEAR);
  // A shorted output that is asked to be low and reads low is no longer in the way.
  if (row.shortedHigh) expect(bench.trips()).toEqual(['output-pins']);
  bench.chip.faults.shortPin(row.pin, null);
  bench.chip.run(0.005);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual([]);
});

/** Duties and their timer outputs, by place in data memory. */
test.each([
  ['OCR1A, duty of the pump', 0x88, 3],
  ['OCR1B, duty of the lamp', 0x8a, 5],
  ['TCCR1A, timer off the pump', 0x80, 7],
  ['TCCR1A, timer off the lamp', 0x80, 5],
  ['PORTB, lamp enable', 0x25, 0],
  ['PORTD, vent', 0x2b, 6],
])('%s flipped: what was asked for again within a tick', (_, address, bit) => {
  const bench = busy();
  flip(bench, address, bit);
  bench.chip.run(0.0012);
  expect(bench.pins()).toEqual(PINS_BUSY);
  // Noise of one tick trips nothing.
  expect(bench.trips()).toEqual([]);
});
