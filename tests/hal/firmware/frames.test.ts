/** Timing and content of the frame. */
import { expect, test } from 'vitest';
import { ACTING_BITS, PRESS_SHIFT, SWITCH_BITS } from '../../../hal/firmata/protocol.ts';
import { BUTTON_LADDER } from '../../../wiring/pin-map.ts';
import { BUSY, createBench, intervalMessage } from './bench.ts';

test('no frame is sent before the host has set a sampling interval', () => {
  const bench = createBench({ samplingMs: null });
  bench.chip.run(0.05);
  bench.sent.length = 0;
  bench.chip.run(2);
  expect(bench.sent).toEqual([]);
  bench.send(intervalMessage(20), 0.05);
  expect(bench.frames().length).toBeGreaterThan(0);
});

test('every field says what is on the pins', () => {
  const bench = createBench();
  const counts = [
    ['pressure', 101],
    ['irradiance', 202],
    ['glassTemperature', 303],
    ['heatSinkTemperature', 404],
    ['supplyVoltage', 909],
  ] as const;
  for (const [name, value] of counts) bench.setCounts(name, value);
  bench.want(BUSY);
  bench.chip.run(0.02);
  expect(bench.lastFrame()).toMatchObject({
    ...Object.fromEntries(counts),
    switches: SWITCH_BITS.shieldClosed,
    trips: 0,
    acting: ACTING_BITS.selectorPressure | ACTING_BITS.lampEnabled | ACTING_BITS.leased,
    pump: BUSY.pump,
    lamp: BUSY.lamp,
    badMessages: 0,
  });
});

test.each([
  ['shieldSwitch', 0],
  ['overPressureSwitch', SWITCH_BITS.shieldClosed | SWITCH_BITS.overPressureTripped],
  ['emergencyStop', SWITCH_BITS.shieldClosed | SWITCH_BITS.emergencyStopPressed],
] as const)('an open %s shows in its bit', (name, switches) => {
  const bench = createBench();
  bench.setSwitch(name, true);
  bench.chip.run(0.02);
  expect(bench.lastFrame().switches).toBe(switches);
});

test.each([
  [10, 10],
  [20, 20],
  [33, 33],
  [1000, 1000],
  [0, 10],
  [2000, 1000],
])('an interval of %i ms gives a frame every %i ms of board time', (asked, given) => {
  const bench = createBench({ samplingMs: asked });
  bench.sent.length = 0;
  bench.chip.run(Math.max(0.5, (3.2 * given) / 1000));
  const frames = bench.frames();
  expect(frames.length).toBeGreaterThan(1);
  for (const [i, frame] of frames.entries()) {
    expect(frame.timeMs - frames[0]!.timeMs).toBe(i * given);
    expect(frame.sequence - frames[0]!.sequence).toBe(i);
  }
});

test('the time of a frame is board time, that of now, when it is sent', () => {
  const bench = createBench({ samplingMs: 100 });
  bench.sent.length = 0;
  bench.timeUntil(() => bench.sent.length > 0, 0.2);
  const sentAtMs = bench.chip.timeS() * 1000;
  bench.chip.run(0.02);
  const { timeMs } = bench.frames()[0]!;
  expect(sentAtMs - bench.bootMs - timeMs).toBeGreaterThan(-0.2);
  expect(sentAtMs - bench.bootMs - timeMs).toBeLessThan(1.2);
});

const press = (bench: ReturnType<typeof createBench>, counts: number, forS: number) => {
  bench.setCounts('buttons', counts);
  bench.chip.run(forS);
  bench.setCounts('buttons', BUTTON_LADDER.released.counts);
  bench.chip.run(0.04);
};
const pressesOf = (bench: ReturnType<typeof createBench>, button: keyof typeof PRESS_SHIFT) =>
  (bench.lastFrame().presses >> PRESS_SHIFT[button]) & 3;

test.each(['yes', 'no', 'more'] as const)('%s is counted once a press, modulo four', (button) => {
  const bench = createBench();
  const { counts } = BUTTON_LADDER[button];
  for (const count of [1, 2, 3, 0]) {
    press(bench, counts, 0.1);
    expect(pressesOf(bench, button)).toBe(count);
  }
  press(bench, counts, 0.05);
  expect(bench.lastFrame().presses).toBe(1 << PRESS_SHIFT[button]);
});

test('a contact that bounces for less than 20 ms is no press', () => {
  const bench = createBench();
  for (let i = 0; i < 5; i++) press(bench, BUTTON_LADDER.yes.counts, 0.018);
  expect(bench.lastFrame().presses).toBe(0);
});

test.each([
  ['yes', 163],
  ['no', 164],
  ['no', 514],
  ['more', 515],
  ['more', 862],
] as const)('%s owns %i counts', (button, counts) => {
  const bench = createBench();
  press(bench, counts, 0.05);
  expect(bench.lastFrame().presses).toBe(1 << PRESS_SHIFT[button]);
});

test('863 counts are no button', () => {
  const bench = createBench();
  press(bench, 863, 0.05);
  expect(bench.lastFrame().presses).toBe(0);
});
