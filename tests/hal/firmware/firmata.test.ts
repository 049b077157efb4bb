/** The plain Firmata that a general host needs, and what it may do to pins. */
import { describe, expect, test } from 'vitest';
import { FIRMWARE_NAME, FIRMWARE_VERSION } from '../../../hal/firmata/protocol.ts';
import { PINS } from '../../../wiring/pin-map.ts';
import {
  BUSY,
  createBench,
  PINS_BUSY,
  PINS_SAFE,
  SAFE_OUTPUTS,
  sysex,
  sysexesIn,
} from './bench.ts';

const MODE = { input: 0, output: 1, analog: 2, pwm: 3, i2c: 6, pullUp: 11 };
const firmware = [
  0x79,
  FIRMWARE_VERSION.major,
  FIRMWARE_VERSION.minor,
  ...[...Buffer.from(FIRMWARE_NAME)].flatMap((code) => [code, 0]),
];
const quiet = () => {
  const bench = createBench({ samplingMs: null });
  const atBoot = [...bench.sent];
  bench.sent.length = 0;
  return { ...bench, atBoot };
};
const setMode = (pin: number, mode: number) => [0xf4, pin, mode];
const setPin = (pin: number, high: boolean) => [0xf5, pin, Number(high)];
const setPort = (port: number, levels: number) => [0x90 | port, levels & 127, levels >> 7];
const text = (bytes: readonly number[]) =>
  String.fromCharCode(...bytes.filter((_, i) => i % 2 === 0));

describe('the handshake', () => {
  test('at boot the board tells protocol version and firmware name', () => {
    expect(quiet().atBoot).toEqual([0xf9, 2, 5, ...sysex(firmware)]);
  });

  test('version and firmware are told again when asked', () => {
    const bench = quiet();
    bench.send([0xf9, ...sysex([0x79])], 0.02);
    expect(bench.sent).toEqual([0xf9, 2, 5, ...sysex(firmware)]);
  });

  test('every pin has the modes that its wire allows', () => {
    const bench = quiet();
    bench.send(sysex([0x6b]), 0.05);
    const [answer] = sysexesIn(bench.sent);
    expect(answer?.[0]).toBe(0x6c);
    const perPin: number[][] = [[]];
    for (const byte of answer!.slice(1)) {
      if (byte === 0x7f) perPin.push([]);
      else perPin.at(-1)!.push(byte);
    }
    const fit = {
      serial: [],
      // None: they obey only the unit's own messages.
      actuator: [],
      signal: [MODE.output, 1],
      'safety-switch': [MODE.input, 1, MODE.pullUp, 1],
      analogue: [MODE.analog, 10],
      bus: [MODE.i2c, 1],
    };
    const rows = Object.values(PINS).toSorted((a, b) => a.firmataPin - b.firmataPin);
    const expected = rows.map(({ role }) => fit[role]);
    expect(perPin).toEqual([...expected, []]);
  });

  test('analogue channels 0 to 7 are pins 14 to 21', () => {
    const bench = quiet();
    bench.send(sysex([0x69]), 0.05);
    const none = new Array<number>(14).fill(0x7f);
    expect(sysexesIn(bench.sent)).toEqual([[0x6a, ...none, 0, 1, 2, 3, 4, 5, 6, 7]]);
  });

  test('states of all pins asked in one go are all answered', () => {
    const bench = quiet();
    bench.want({ ...SAFE_OUTPUTS, pump: 200 });
    bench.sent.length = 0;
    for (let pin = 0; pin < 22; pin++) bench.chip.receive(sysex([0x6d, pin]));
    bench.chip.run(0.1);
    const states = sysexesIn(bench.sent).filter(([command]) => command === 0x6e);
    expect(states.map(([, pin]) => pin).toSorted((a, b) => a! - b!)).toEqual([...Array(22).keys()]);
    expect(states.find(([, pin]) => pin === 9)).toEqual([0x6e, 9, MODE.output, 200 & 127, 1]);
  });
});

describe('reports', () => {
  test('a safety switch is reported at once when asked for, and when it changes', () => {
    const bench = quiet();
    bench.send([0xd0, 1]);
    expect(bench.sent).toEqual([0x90, 0, 0]);
    bench.sent.length = 0;
    bench.setSwitch('shieldSwitch', true);
    bench.chip.run(0.004);
    expect(bench.sent).toEqual([0x90, 1 << 4, 0]);
    bench.sent.length = 0;
    bench.chip.run(0.2);
    expect(bench.sent).toEqual([]);
    bench.send([0xd0, 0]);
    bench.setSwitch('shieldSwitch', false);
    bench.chip.run(0.02);
    expect(bench.sent).toEqual([]);
  });

  test('an analogue channel is reported at the sampling interval', () => {
    const bench = quiet();
    bench.setCounts('heatSinkTemperature', 777);
    bench.send([0xc6, 1], 0.2);
    const reports = bench.sent.length / 3;
    expect(bench.sent).toEqual(new Array(reports).fill([0xe6, 777 & 127, 777 >> 7]).flat());
    expect(Math.abs(reports - 0.2 / 0.019)).toBeLessThan(1.5);
  });
});

describe('plain writes', () => {
  test('light the status lamp and sound the buzzer', () => {
    const bench = quiet();
    bench.send(setPort(1, 1 << 3));
    expect(bench.chip.level(PINS.statusRed.firmataPin)).toBe(true);
    expect(bench.chip.level(PINS.statusGreen.firmataPin)).toBe(false);
    bench.send(setPin(PINS.statusBlue.firmataPin, true));
    expect(bench.chip.level(PINS.statusBlue.firmataPin)).toBe(true);
    bench.send(setPort(0, 1 << 5));
    expect(bench.buzzes()).toBe(true);
  });

  test('to a whole port leave actuators alone', () => {
    const bench = quiet();
    bench.send([...setPort(0, 0xff), ...setPort(1, 0xff)]);
    expect(bench.pins()).toEqual(PINS_SAFE);
    bench.want(BUSY);
    bench.chip.run(0.25);
    bench.send([...setPort(0, 0), ...setPort(1, 0)]);
    expect(bench.pins()).toEqual(PINS_BUSY);
    // Nor do they renew the lease of the outputs.
    bench.chip.run(0.26);
    expect(bench.pins()).toEqual(PINS_SAFE);
  });

  test('cannot turn a safety switch or an actuator into something else', () => {
    const bench = quiet();
    bench.send([...setMode(4, MODE.output), ...setPin(4, true), ...setMode(6, MODE.input)]);
    bench.send([...setMode(6, MODE.pwm), ...setMode(40, MODE.output), ...setPin(40, true)]);
    bench.want(BUSY);
    expect(bench.chip.level(4)).toBe(false);
    expect(bench.pins()).toEqual(PINS_BUSY);
  });
});

describe('I2C', () => {
  test('writes reach the bus', () => {
    const received: number[] = [];
    const bench = createBench({
      samplingMs: null,
      i2c: new Map([[0x20, { write: (byte: number) => received.push(byte) }]]),
    });
    bench.send([...sysex([0x78, 0, 0]), ...sysex([0x76, 0x20, 0, 0x2a, 1, 5, 0])]);
    expect(received).toEqual([0xaa, 5]);
  });

  test('reads are answered by a string that says they are not supported', () => {
    const bench = quiet();
    bench.send(sysex([0x76, 0x20, 0x08, 1, 0]), 0.05);
    const [answer] = sysexesIn(bench.sent);
    expect(answer?.[0]).toBe(0x71);
    expect(text(answer!.slice(1))).toBe('I2C reads are not supported');
  });
});
