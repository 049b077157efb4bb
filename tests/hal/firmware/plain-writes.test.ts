/** Plain Firmata writes pin by pin: each moves its own actuator and no other. */
import { describe, expect, test } from 'vitest';
import { PINS } from '../../../wiring/pin-map.ts';
import { createBench, PINS_SAFE, SAFE_OUTPUTS, sysex, sysexesIn } from './bench.ts';

const MODE = { output: 1, pwm: 3 };
const FULL = 255;
const quiet = () => createBench({ samplingMs: null });
const setMode = (pin: number, mode: number) => [0xf4, pin, mode];
const setPin = (pin: number, level: number) => [0xf5, pin, level];
const setDuty = (pin: number, duty: number) => [0xe0 | pin, duty & 127, duty >> 7];
const extended = (pin: number, ...groups: number[]) => sysex([0x6f, pin, ...groups]);

const stateOf = (bench: ReturnType<typeof quiet>, pin: number) => {
  bench.sent.length = 0;
  bench.send(sysex([0x6d, pin]), 0.01);
  const [answer] = sysexesIn(bench.sent);
  return answer?.slice(1);
};

/** What pin high means on the pins; a lamp also needs what its trips look at. */
const LEVELS = [
  [PINS.pumpDrive.firmataPin, { pump: FULL }],
  [PINS.lampDrive.firmataPin, { lamp: FULL }],
  [PINS.ventClose.firmataPin, { ventOpen: false }],
  [PINS.lampEnable.firmataPin, { lampEnabled: true }],
  [PINS.selectorPressure.firmataPin, { pressureSide: true }],
] as const;

describe.each(LEVELS)('pin %i', (pin, high) => {
  test('moves its own actuator and no other, up and down', () => {
    const bench = quiet();
    bench.send(setMode(pin, MODE.output));
    bench.send(setPin(pin, 1));
    expect(bench.pins()).toEqual({ ...PINS_SAFE, ...high });
    bench.send(setPin(pin, 0));
    expect(bench.pins()).toEqual(PINS_SAFE);
  });

  test('down again leaves the others up', () => {
    const bench = quiet();
    for (const [each] of LEVELS) bench.send([...setMode(each, MODE.output), ...setPin(each, 1)]);
    const all = { pump: 255, lamp: 255, ventOpen: false, lampEnabled: true, pressureSide: true };
    expect(bench.pins()).toEqual(all);
    bench.send(setPin(pin, 0));
    const [name] = Object.keys(high) as (keyof typeof PINS_SAFE)[];
    expect(bench.pins()).toEqual({ ...all, [name!]: PINS_SAFE[name!] });
  });

  test('says in its state what is asked for', () => {
    const bench = quiet();
    // Not the host's yet, but an output all the same.
    expect(stateOf(bench, pin)).toEqual([pin, MODE.output, 0, 0]);
    bench.send([...setMode(pin, MODE.output), ...setPin(pin, 1)]);
    const isDuty = 'pump' in high || 'lamp' in high;
    const [low, rest] = isDuty ? [FULL & 127, FULL >> 7] : [1, 0];
    expect(stateOf(bench, pin)).toEqual([pin, MODE.output, low, rest]);
  });
});

test.each([
  ['statusRed', 11],
  ['statusGreen', 12],
  ['statusBlue', 13],
  ['buzzer', 5],
] as const)('%s goes up and down alone and says so', (name, pin) => {
  expect(PINS[name].firmataPin).toBe(pin);
  const others = [5, 11, 12, 13].filter((other) => other !== pin);
  const bench = quiet();
  const levels = () => others.map((other) => bench.chip.level(other));
  expect(stateOf(bench, pin)).toEqual([pin, MODE.output, 0, 0]);
  for (const other of others) bench.send(setPin(other, 1));
  bench.send(setPin(pin, 1));
  expect(stateOf(bench, pin)).toEqual([pin, MODE.output, 1, 0]);
  expect(bench.chip.level(pin)).toBe(true);
  bench.send(setPin(pin, 0));
  expect(bench.chip.level(pin)).toBe(false);
  expect(stateOf(bench, pin)).toEqual([pin, MODE.output, 0, 0]);
  expect(levels()).toEqual([true, true, true]);
});

test('states of pins that are no outputs are those of their first mode', () => {
  const bench = quiet();
  const none = 0x7f;
  expect(stateOf(bench, 0)).toEqual([0, none, 0, 0]);
  expect(stateOf(bench, 4)).toEqual([4, 11, 1, 0]);
  expect(stateOf(bench, 14)).toEqual([14, 2, 0, 0]);
  expect(stateOf(bench, 18)).toEqual([18, 6, 0, 0]);
  expect(stateOf(bench, 22)).toBeUndefined();
});

test('a duty for a pin that was not given PWM is passed over', () => {
  const bench = quiet();
  bench.send(setDuty(9, 100));
  bench.send([...setMode(9, MODE.output), ...setDuty(9, 100), ...extended(9, 100, 0)]);
  bench.send(extended(40, 100, 0));
  expect(bench.pins()).toEqual(PINS_SAFE);
});

test('a duty over full is counted as a bad message', () => {
  const bench = createBench();
  bench.send([...setMode(9, MODE.pwm), ...setDuty(9, 256)], 0.03);
  expect(bench.lastFrame().badMessages).toBe(1);
});

test('an extended write takes one group or two, and more only when they are zero', () => {
  const bench = quiet();
  bench.send(setMode(9, MODE.pwm));
  bench.send(extended(9, 100));
  expect(bench.pins().pump).toBe(100);
  bench.send(extended(9, 1, 1));
  expect(bench.pins().pump).toBe(129);
  bench.send(extended(9, 2, 1, 0, 0));
  expect(bench.pins().pump).toBe(130);
  bench.send(extended(9, 2, 1, 0, 1));
  expect(bench.pins().pump).toBe(0);
  bench.send(extended(9, 50));
  bench.send(extended(9));
  expect(bench.pins().pump).toBe(50);
});

test('SYSTEM_RESET takes the modes back: actuators no longer listen to plain writes', () => {
  const bench = quiet();
  bench.send([...setMode(6, MODE.output), ...setMode(9, MODE.pwm), 0xff]);
  bench.send([...setPin(6, 1), ...setDuty(9, 100)]);
  expect(bench.pins()).toEqual(PINS_SAFE);
});

test('a byte that belongs to nothing is passed over', () => {
  const bench = quiet();
  bench.want(SAFE_OUTPUTS);
  bench.sent.length = 0;
  bench.send([1, 2, 0xf7, 3, 0xf1, 4, 0xf9], 0.01);
  expect(bench.sent).toEqual([0xf9, 2, 5]);
});
