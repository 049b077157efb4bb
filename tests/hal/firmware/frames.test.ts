/** Timing and content of the frame. */
import { expect, test } from 'vitest';
import {
  ACTING_BITS,
  LADDER_STEPS,
  PRESS_SHIFT,
  SWITCH_BITS,
} from '../../../hal/firmata/protocol.ts';
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
  bench.setCounts('buttons', 892);
  bench.chip.run(0.04);
};
const pressesOf = (bench: ReturnType<typeof createBench>, button: keyof typeof PRESS_SHIFT) =>
  (bench.lastFrame().presses >> PRESS_SHIFT[button]) & 3;

const NAMED = { hold: 0, no: 432, more: 601, yes: 674 } as const;
const BUTTON_NAMES = ['hold', 'yes', 'no', 'more'] as const;

test.each(BUTTON_NAMES)('%s is counted once a press, modulo four', (button) => {
  const bench = createBench();
  for (const count of [1, 2, 3, 0]) {
    press(bench, NAMED[button], 0.1);
    expect(pressesOf(bench, button)).toBe(count);
  }
  press(bench, NAMED[button], 0.05);
  expect(bench.lastFrame().presses).toBe(1 << PRESS_SHIFT[button]);
});

test('a contact that bounces for less than 20 ms is no press', () => {
  const bench = createBench();
  for (let i = 0; i < 5; i++) press(bench, NAMED.yes, 0.018);
  expect(bench.lastFrame().presses).toBe(0);
});

/** What the frame says of the ladder while it gives these counts. */
const readingAt = (bench: ReturnType<typeof createBench>, counts: number) => {
  bench.setCounts('buttons', counts);
  bench.chip.run(0.05);
  return LADDER_STEPS[bench.lastFrame().ladder];
};

// The edges of each band, typed from the resistors: 20 counts on either side of theirs, 40 at rest.
test.each([
  ['hold', 0, 150],
  ['no', 412, 452],
  ['more', 581, 621],
  ['yes', 654, 694],
  ['released', 852, 932],
  ['open', 980, 1023],
] as const)(
  '%s owns %i to %i counts, and what lies beside belongs to nothing',
  (name, from, to) => {
    const bench = createBench();
    expect(readingAt(bench, from)).toBe(name);
    expect(readingAt(bench, to)).toBe(name);
    for (const beside of [from - 1, to + 1].filter((counts) => counts >= 0 && counts <= 1023)) {
      expect(readingAt(bench, beside), String(beside)).toBe('between');
    }
  },
);

test('a reading between two buttons and an open wire are no press', () => {
  const bench = createBench();
  for (const counts of [280, 500, 640, 760, 1023]) press(bench, counts, 0.05);
  expect(bench.lastFrame().presses).toBe(0);
});

/** Counts with these buttons down, by Ohm's law: 10 kOhm above, 68 kOhm beside. */
const countsOf = (...kOhm: number[]) => {
  const siemens = kOhm.reduce((sum, one) => sum + 1 / one, 1 / 68);
  return Math.round(1023 / (1 + 10 * siemens));
};

test('two buttons at once are no third one, and HOLD is read beside every other', () => {
  const bench = createBench();
  const [no, more, yes] = [8.2, 18, 27];
  for (const both of [
    [no, more],
    [no, yes],
    [more, yes],
    [no, more, yes],
  ]) {
    expect(readingAt(bench, countsOf(...both)), String(both)).toBe('between');
  }
  // A worn contact of HOLD, of 1 kOhm.
  for (const other of [no, more, yes]) {
    expect(readingAt(bench, countsOf(1, other)), String(other)).toBe('hold');
  }
});

test('a button counts when it comes out of rest, and HOLD whatever else is down', () => {
  const bench = createBench();
  expect(readingAt(bench, NAMED.no)).toBe('no');
  // YES pressed and let go beside a NO that stays down.
  readingAt(bench, countsOf(8.2, 27));
  expect(readingAt(bench, NAMED.no)).toBe('no');
  expect(bench.lastFrame().presses).toBe(1 << PRESS_SHIFT.no);
  readingAt(bench, 0);
  readingAt(bench, NAMED.no);
  expect(bench.lastFrame().presses).toBe((1 << PRESS_SHIFT.no) | (1 << PRESS_SHIFT.hold));
});
