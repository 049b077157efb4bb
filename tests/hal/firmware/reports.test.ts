/** Firmata's own reports: asked for, stopped, and what SYSTEM_RESET leaves of them. */
import { expect, test } from 'vitest';
import { KINDS, UNIT_SYSEX } from '../../../hal/firmata/protocol.ts';
import { createBench, intervalMessage, sysex, sysexesIn } from './bench.ts';

const SYSTEM_RESET = 0xff;
const reportAnalog = (channel: number, on: number) => [0xc0 | channel, on];
const reportDigital = (port: number, on: number) => [0xd0 | port, on];

function quiet() {
  const bench = createBench({ samplingMs: null });
  bench.sent.length = 0;
  const during = (seconds: number) => {
    bench.sent.length = 0;
    bench.chip.run(seconds);
    return [...bench.sent];
  };
  return { ...bench, during };
}

/** Three bytes a report: which commands there were. */
const commands = (bytes: readonly number[]) => [
  ...new Set(bytes.filter((_, i) => i % 3 === 0).map((byte) => byte.toString(16))),
];

test('each analogue channel is reported alone, with its own counts, and stops alone', () => {
  const bench = quiet();
  const scanned = [
    [0, 'pressure'],
    [1, 'irradiance'],
    [2, 'glassTemperature'],
    [3, 'buttons'],
    [6, 'heatSinkTemperature'],
    [7, 'supplyVoltage'],
  ] as const;
  for (const [channel, name] of scanned) {
    bench.setCounts(name, 300 + channel);
    bench.send(reportAnalog(channel, 1));
    const counts = 300 + channel;
    expect(bench.during(0.03).slice(-3)).toEqual([0xe0 | channel, counts & 127, counts >> 7]);
    bench.send(reportAnalog(channel, 0));
    expect(bench.during(0.06)).toEqual([]);
  }
});

test('stopping one channel leaves another', () => {
  const bench = quiet();
  bench.send([...reportAnalog(0, 1), ...reportAnalog(6, 1)]);
  expect(commands(bench.during(0.06))).toEqual(['e0', 'e6']);
  bench.send(reportAnalog(0, 0));
  expect(commands(bench.during(0.06))).toEqual(['e6']);
});

test('all channels asked for are reported in turn: the six that are scanned, and no other', () => {
  const bench = quiet();
  for (let channel = 0; channel < 8; channel++) bench.send(reportAnalog(channel, 1));
  const reports = bench.during(0.1).filter((_, i) => i % 3 === 0);
  const begin = reports.indexOf(0xe0);
  const round = [0xe0, 0xe1, 0xe2, 0xe3, 0xe6, 0xe7];
  expect(reports.slice(begin, begin + 18)).toEqual([...round, ...round, ...round]);
});

test('channels that are no analogue inputs are not reported', () => {
  const bench = quiet();
  for (const channel of [4, 5, 8, 14, 15]) bench.send(reportAnalog(channel, 1));
  expect(bench.during(0.1)).toEqual([]);
});

test.each([1, 2])(
  'port %i, which has no inputs, reports zeros when asked, and only then',
  (port) => {
    const bench = quiet();
    if (port === 1) bench.setSwitch('shieldSwitch', true);
    bench.send(reportDigital(port, 1), 0.02);
    expect(bench.sent).toEqual([0x90 | port, 0, 0]);
    bench.setSwitch('emergencyStop', true);
    expect(bench.during(0.05)).toEqual([]);
  },
);

test('a port that the board does not have is not reported', () => {
  const bench = quiet();
  for (const port of [3, 7, 8, 15]) bench.send(reportDigital(port, 1));
  expect(bench.sent).toEqual([]);
});

test('each safety switch shows at its own pin', () => {
  const bench = quiet();
  bench.send(reportDigital(0, 1));
  for (const [name, pin] of [
    ['emergencyStop', 2],
    ['overPressureSwitch', 3],
    ['shieldSwitch', 4],
  ] as const) {
    bench.setSwitch(name, true);
    expect(bench.during(0.01)).toEqual([0x90, 1 << pin, 0]);
    bench.setSwitch(name, false);
    expect(bench.during(0.01)).toEqual([0x90, 0, 0]);
  }
});

test('SYSTEM_RESET stops all reports and puts the interval back to that of the start', () => {
  const bench = quiet();
  bench.send([...intervalMessage(100), ...reportAnalog(0, 1), ...reportDigital(0, 1)], 0.2);
  expect(bench.sent.length).toBeGreaterThan(0);
  bench.send([SYSTEM_RESET], 0.05);
  bench.sent.length = 0;
  bench.setSwitch('shieldSwitch', true);
  expect(bench.during(0.3)).toEqual([]);
  bench.send(reportAnalog(0, 1));
  // Firmata's usual 19 ms: ten in 0.19 s.
  const reports = bench.during(0.19).length / 3;
  expect(Math.abs(reports - 10)).toBeLessThanOrEqual(1);
});

test('the interval moves from now on: a long one that is cut short does not run out first', () => {
  const bench = createBench({ samplingMs: 1000 });
  bench.chip.run(0.1);
  bench.sent.length = 0;
  bench.send(intervalMessage(50), 0.12);
  expect(bench.frames().length).toBeGreaterThanOrEqual(1);
});

test('asking again for the same interval moves no frame', () => {
  const bench = createBench({ samplingMs: 50 });
  bench.sent.length = 0;
  for (let i = 0; i < 20; i++) bench.send(intervalMessage(50), 0.01);
  const times = bench.frames().map(({ timeMs }) => timeMs);
  expect(times.length).toBeGreaterThan(3);
  for (const [i, timeMs] of times.entries()) expect(timeMs - times[0]!).toBe(50 * i);
});

test('more questions than the line takes at once are all answered whole', () => {
  const bench = quiet();
  for (const query of [0x6b, 0x69, 0x79]) bench.chip.receive(sysex([query]));
  for (let pin = 0; pin < 22; pin++) bench.chip.receive(sysex([0x6d, pin]));
  bench.chip.run(0.3);
  const answers = sysexesIn(bench.sent);
  expect(answers.map(([command]) => command).toSorted((a, b) => a! - b!)).toEqual([
    0x6a,
    0x6c,
    ...new Array<number>(22).fill(0x6e),
    0x79,
  ]);
  for (const answer of answers) {
    if (answer[0] === 0x6e) expect(answer.length).toBe(5);
    if (answer[0] === 0x6a) expect(answer.length).toBe(1 + 22);
  }
  const bytes = answers.reduce((sum, answer) => sum + answer.length + 2, 0);
  expect(bench.sent.length).toBe(bytes);
});

test('states asked faster than the line can tell them are told whole, each pin at least once', () => {
  const bench = quiet();
  for (let i = 0; i < 8 * 22; i++) bench.chip.receive(sysex([0x6d, i % 22]));
  bench.chip.run(0.2);
  const told = sysexesIn(bench.sent);
  const states = told.filter(([kind]) => kind === 0x6e);
  for (const state of states) expect(state).toHaveLength(5);
  // A query that lost a byte on the way in may look like an empty message of ours.
  const rest = told.filter(([kind]) => kind !== 0x6e);
  for (const other of rest) expect(other.slice(0, 2)).toEqual([UNIT_SYSEX, KINDS.refusal]);
  expect(bench.sent.length).toBe(told.reduce((sum, { length }) => sum + length + 2, 0));
  expect(new Set(states.map(([, pin]) => pin)).size).toBe(22);
});
