/**
 * What the firmware sets the chip up to, where the emulated chip is more patient than silicon: clock
 * rates by the data sheet, the pull-ups that make a broken wire read as the unsafe position.
 */
import { expect, test } from 'vitest';
import { SWITCH_BITS } from '../../../hal/firmata/protocol.ts';
import { PINS } from '../../../wiring/pin-map.ts';
import { BUSY, createBench, PINS_SAFE, type Trip } from './bench.ts';

const CLOCK_HZ = 16_000_000;
/** Registers of the ATmega328P, by their place in data memory (data sheet, register summary). */
const ADCSRA = 0x7a;
const ADMUX = 0x7c;
const TCCR1A = 0x80;
const TCCR1B = 0x81;
const TWBR = 0xb8;
const TWSR = 0xb9;

test('the converter runs in the 50 to 200 kHz that it needs for full resolution', () => {
  const prescaler = 2 ** (createBench().chip.peek(ADCSRA) & 7);
  expect(CLOCK_HZ / prescaler).toBeGreaterThanOrEqual(50_000);
  expect(CLOCK_HZ / prescaler).toBeLessThanOrEqual(200_000);
});

test('the converter measures against the supply of the sensors', () => {
  expect(createBench().chip.peek(ADMUX) >> 6).toBe(1);
});

test('pump and lamp have phase-correct PWM of 8 bits at 490 Hz', () => {
  const { peek } = createBench().chip;
  const wave = (peek(TCCR1A) & 3) | ((peek(TCCR1B) & 0x18) >> 1);
  expect(wave).toBe(1);
  const prescaler = [0, 1, 8, 64, 256, 1024][peek(TCCR1B) & 7]!;
  expect(CLOCK_HZ / prescaler / (2 * 255)).toBeCloseTo(490, 0);
});

test('the two-wire bus runs at no more than the 100 kHz of its standard mode', () => {
  const { peek } = createBench().chip;
  const hz = CLOCK_HZ / (16 + 2 * peek(TWBR) * 4 ** (peek(TWSR) & 3));
  expect(hz).toBeLessThanOrEqual(100_000);
  expect(hz).toBeGreaterThan(90_000);
});

test.each([
  ['emergencyStop', 'emergency-stop', SWITCH_BITS.shieldClosed | SWITCH_BITS.emergencyStopPressed],
  [
    'overPressureSwitch',
    'over-pressure-switch',
    SWITCH_BITS.shieldClosed | SWITCH_BITS.overPressureTripped,
  ],
  ['shieldSwitch', 'shield', 0],
] as const)('a broken wire of %s reads as the unsafe position', (name, trip: Trip, switches) => {
  const bench = createBench();
  bench.want(BUSY);
  bench.chip.setLevel(PINS[name].firmataPin, null);
  expect(bench.trips()).toEqual([trip]);
  expect(bench.lastFrame().switches).toBe(switches);
});

test('power-up drives every actuator low within a millisecond, before anything is asked', () => {
  const bench = createBench();
  bench.want(BUSY);
  bench.chip.powerCycle();
  bench.chip.run(0.001);
  expect(bench.pins()).toEqual(PINS_SAFE);
});
