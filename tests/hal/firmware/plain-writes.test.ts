/** Plain Firmata writes pin by pin: signals obey them, actuators never. */
import { describe, expect, test } from 'vitest';
import { OUTPUT_FLAGS } from '../../../hal/firmata/protocol.ts';
import { ACTUATOR_PINS, PINS } from '../../../wiring/pin-map.ts';
import {
  BUSY,
  createBench,
  PINS_BUSY,
  PINS_SAFE,
  SAFE_OUTPUTS,
  sysex,
  sysexesIn,
} from './bench.ts';

const MODE = { input: 0, output: 1, pwm: 3, servo: 4 };
const FULL = 255;
const quiet = () => createBench({ samplingMs: null });
const setMode = (pin: number, mode: number) => [0xf4, pin, mode];
const setPin = (pin: number, level: number) => [0xf5, pin, level];
const setPort = (port: number, levels: number) => [0x90 | port, levels & 127, levels >> 7];
const setDuty = (pin: number, duty: number) => [0xe0 | pin, duty & 127, duty >> 7];
const extended = (pin: number, ...groups: number[]) => sysex([0x6f, pin, ...groups]);

const stateOf = (bench: ReturnType<typeof quiet>, pin: number) => {
  bench.sent.length = 0;
  bench.send(sysex([0x6d, pin]), 0.01);
  const [answer] = sysexesIn(bench.sent);
  return answer?.slice(1);
};

/** Every way in which a Firmata host may ask an actuator's pin to do something. */
const WAYS: readonly (readonly [string, (pin: number) => readonly number[]])[] = [
  ['a level', (pin) => [...setMode(pin, MODE.output), ...setPin(pin, 1)]],
  ['its port', (pin) => [...setMode(pin, MODE.output), ...setPort(pin >> 3, 1 << (pin & 7))]],
  ['a duty', (pin) => [...setMode(pin, MODE.pwm), ...setDuty(pin, FULL)]],
  [
    'an extended duty',
    (pin) => [...setMode(pin, MODE.pwm), ...extended(pin, FULL & 127, FULL >> 7)],
  ],
  ['the angle of a servo', (pin) => [...setMode(pin, MODE.servo), ...setDuty(pin, 90)]],
  ['the mode of an input', (pin) => setMode(pin, MODE.input)],
];
const ACTUATORS = ACTUATOR_PINS.map((name) => PINS[name].firmataPin);

describe.each(ACTUATORS)('actuator pin %i', (pin) => {
  test.each(WAYS)('does not obey %s, while safe or while it acts', (_, ask) => {
    const bench = quiet();
    bench.send(ask(pin));
    expect(bench.pins()).toEqual(PINS_SAFE);
    bench.want(BUSY);
    bench.send(ask(pin).map((byte, i, all) => (i === all.length - 1 && i > 3 ? 0 : byte)));
    bench.send(ask(pin));
    expect(bench.pins()).toEqual(PINS_BUSY);
    // Nor does it renew the lease.
    bench.chip.run(0.4);
    bench.send(ask(pin));
    bench.chip.run(0.1);
    expect(bench.pins()).toEqual(PINS_SAFE);
  });

  test.each([
    ['level', setPin(pin, 1)],
    ['duty', pin < 16 ? setDuty(pin, 1) : []],
    ['extended duty', extended(pin, 1)],
  ])('counts a %s of its own as a bad message', (_, message) => {
    const bench = createBench();
    bench.send(message, 0.03);
    expect(bench.lastFrame().badMessages).toBe(1);
  });

  test('says in its state what is asked for', () => {
    const bench = quiet();
    const [, , low, rest] = stateOf(bench, pin)!;
    expect([low, rest]).toEqual([0, 0]);
    bench.want({
      flags: OUTPUT_FLAGS.selectorPressure | OUTPUT_FLAGS.lampEnabled,
      pump: 255,
      lamp: 255,
    });
    const isDuty = PINS.pumpDrive.firmataPin === pin || PINS.lampDrive.firmataPin === pin;
    expect(stateOf(bench, pin)).toEqual([
      pin,
      MODE.output,
      ...(isDuty ? [FULL & 127, FULL >> 7] : [1, 0]),
    ]);
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

test('a byte that belongs to nothing is passed over', () => {
  const bench = quiet();
  bench.want(SAFE_OUTPUTS);
  bench.sent.length = 0;
  bench.send([1, 2, 0xf7, 3, 0xf1, 4, 0xf9], 0.01);
  expect(bench.sent).toEqual([0xf9, 2, 5]);
});

test('SYSTEM_RESET gives the signals their first mode again', () => {
  const bench = quiet();
  bench.send([...setMode(5, MODE.input), 0xff, ...setPin(5, 1)]);
  expect(bench.buzzes()).toBe(true);
});
