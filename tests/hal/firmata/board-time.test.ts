import { expect, test } from 'vitest';
import { startOfTime, timeOfFrame, timeOfMuteFrame } from '../../../hal/firmata/board-time.ts';

/** Frames at [board ms, host s], all times from opening at host time 0. */
const timesOf = (frames: readonly (readonly [boardMs: number, hostS: number])[]) => {
  let line = startOfTime(0);
  return frames.map(([boardMs, hostS]) => {
    const timed = timeOfFrame(line, boardMs, hostS);
    line = timed.line;
    return timed;
  });
};

test('time follows the board, not the jitter of the host', () => {
  const times = timesOf([
    [5000, 0.1],
    [5050, 0.19],
    [5100, 0.2],
  ]).map(({ timeS }) => timeS);
  expect(times[2]! - times[1]!).toBeCloseTo(0.05);
  expect(times[1]! - times[0]!).toBeCloseTo(0.05);
});

test('the counter of the board wraps after 49.7 days without a step', () => {
  const [before, after] = timesOf([
    [2 ** 32 - 20, 0],
    [30, 0.05],
  ]);
  expect(after!.timeS - before!.timeS).toBeCloseTo(0.05);
  expect(after!.restarted).toBe(false);
});

test.each([
  ['after a minute', 60_000],
  ['after 25 days', 25 * 86_400_000],
  ['after 40 days', 40 * 86_400_000],
])('a board that starts anew %s is noticed, and time goes on by the host', (_, boardMs) => {
  const [before, after] = timesOf([
    [boardMs, 1],
    [300, 1.6],
  ]);
  expect(after!.restarted).toBe(true);
  expect(after!.timeS - before!.timeS).toBeCloseTo(0.6);
});

test('an hour without a link and a slow resonator are no restart, and time does not stand after it', () => {
  let line = timeOfFrame(startOfTime(0), 1000, 0).line;
  line = timeOfMuteFrame(line, 3600).line;
  const back = timeOfFrame(line, 1000 + 3582 * 1000, 3600);
  expect(back.restarted).toBe(false);
  expect(back.timeS).toBe(3600);
  const next = timeOfFrame(back.line, 1000 + 3582 * 1000 + 50, 3600.05);
  expect(next.timeS).toBeCloseTo(3600.05);
});

test('frames that waited while the host was away do not take time back', () => {
  let line = timeOfFrame(startOfTime(0), 1000, 0).line;
  line = timeOfMuteFrame(line, 0.4).line;
  const times = [1050, 1100, 1350, 1450].map((boardMs) => {
    const timed = timeOfFrame(line, boardMs, 0.4);
    line = timed.line;
    return timed.timeS;
  });
  expect(times.slice(0, 3)).toEqual([0.4, 0.4, 0.4]);
  expect(times[3]).toBeCloseTo(0.45);
});
