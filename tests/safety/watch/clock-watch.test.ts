import { describe, expect, test } from 'vitest';
import {
  CLOCK_WATCH_START,
  type ClockWatch,
  stepClockWatch,
} from '../../../src/safety/watch/clock-watch.ts';

interface Line {
  /** Board seconds for each of the host's. */
  readonly rate: number;
  readonly forS: number;
  /** How late each frame arrives, s. */
  readonly late?: (n: number) => number;
  /** Frames that never arrive. */
  readonly lost?: (n: number) => boolean;
  /** How long the host's own clock has stood by then, s. */
  readonly slept?: (n: number) => number;
}

const TICK_S = 0.05;

/** Frames of a board for a time, as the host hears them: late, but one after the other. */
function hear(line: Line, from: ClockWatch = CLOCK_WATCH_START) {
  const { rate, forS, late = () => 0, lost = () => false, slept = () => 0 } = line;
  let watch = from;
  let hostTimeS = 0;
  let gap = false;
  for (let n = 0; n * TICK_S < forS; n++) {
    if (lost(n)) {
      gap = true;
      continue;
    }
    const trueS = n * TICK_S;
    hostTimeS = Math.max(hostTimeS, 1000 + trueS + late(n) - slept(n));
    watch = stepClockWatch(watch, { timeS: trueS * rate, hostTimeS, unbroken: !gap });
    gap = false;
  }
  return watch;
}

/** Repeatable, never the same twice in a row. */
function jitter(n: number): number {
  return ((n * 7919) % 97) / 97 / 3.3;
}
function busy(n: number): number {
  const inHalfMinuteS = (n * TICK_S) % 30;
  return inHalfMinuteS < 4 ? 4 - inHalfMinuteS : 0;
}
/** Read a tenth of a second at a time. */
const batched = (n: number): number => (n % 2 === 0 ? TICK_S : 0);
/** Six frames of each hundred never arrive: never half a minute without a break. */
const oftenLost = (n: number): boolean => n % 100 > 93;
const lostFor = (fromN: number, frames: number) => (n: number) => n >= fromN && n < fromN + frames;
/** From this frame on. */
const sleptFor = (atN: number, seconds: number) => (n: number) => (n >= atN ? seconds : 0);

describe('a clock that keeps time', () => {
  test.each([
    ['at the host’s rate', { rate: 1, forS: 300 }],
    ['a resonator half a per cent off', { rate: 1.005, forS: 300 }],
    [
      'half a per cent slow, on a line that loses frames',
      { rate: 0.995, forS: 300, lost: oftenLost },
    ],
    ['over a line that delays each frame by up to 0.3 s', { rate: 1, forS: 300, late: jitter }],
    [
      'while the host is busy for four seconds each half minute',
      { rate: 1, forS: 300, late: busy },
    ],
    ['read in batches', { rate: 1.005, forS: 300, late: batched }],
    [
      'while the host sleeps for 3 s and its clock stands, the frames lost',
      { rate: 1, forS: 100, lost: lostFor(600, 60), slept: sleptFor(660, 3) },
    ],
    [
      'while the host sleeps for 3 s and its clock stands, the frames queued',
      { rate: 1, forS: 100, slept: (n) => Math.min(3, Math.max(0, (n - 600) * TICK_S)) },
    ],
  ] as readonly [string, Line][])('is not shown to be 1 %% off: %s', (_, line) => {
    expect(hear(line).worstOffRatio).toBeLessThan(0.01);
  });

  test('is shown to be within 1 % after a minute, and to less the longer it is compared', () => {
    expect(hear({ rate: 1.005, forS: 60 }).offAtMostRatio).toBeLessThan(0.01);
    expect(hear({ rate: 1.005, forS: 20 }).offAtMostRatio).toBeGreaterThan(0.01);
    expect(hear({ rate: 1, forS: 900 }).offAtMostRatio).toBeLessThan(0.0005);
  });

  test('is shown to nothing while there is nothing to compare', () => {
    expect(hear({ rate: 1, forS: 4 })).toMatchObject({ looks: 0, comparedS: 0 });
    expect(hear({ rate: 1, forS: 4 }).offAtMostRatio).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('a clock that does not', () => {
  test.each([1.34, 0.75])('is found within 12 s at %s of true time', (rate) => {
    expect(hear({ rate, forS: 12 }).worstOffRatio).toBeGreaterThan(0.01);
    const least = Math.abs(1 - rate);
    expect(hear({ rate, forS: 36 }).worstOffRatio).toBeGreaterThan(0.9 * least);
    expect(hear({ rate, forS: 36 }).worstOffRatio).toBeLessThanOrEqual(1.01 * least);
  });

  test.each([1.02, 0.98])('is found within 36 s at %s of true time', (rate) => {
    expect(hear({ rate, forS: 36 }).worstOffRatio).toBeGreaterThan(0.01);
  });

  test.each([1.012, 0.988])('is found over the whole job at %s of true time', (rate) => {
    expect(hear({ rate, forS: 60 }).worstOffRatio).toBeLessThan(0.01);
    expect(hear({ rate, forS: 200 }).worstOffRatio).toBeGreaterThan(0.01);
  });

  test.each([
    ['that is late', { late: jitter }],
    ['that is read in batches', { late: batched }],
    ['that loses frames every five seconds', { lost: oftenLost }],
  ])('is found over a line %s', (_, line) => {
    expect(hear({ rate: 1.34, forS: 40, ...line }).worstOffRatio).toBeGreaterThan(0.2);
    expect(hear({ rate: 1.02, forS: 90, ...line }).worstOffRatio).toBeGreaterThan(0.01);
  });

  test('stays found, whatever it does afterwards', () => {
    const found = hear({ rate: 1.34, forS: 40 });
    expect(hear({ rate: 1, forS: 120 }, found).worstOffRatio).toBeGreaterThan(0.2);
  });

  test('is found where it goes wrong late in a long job', () => {
    const sound = hear({ rate: 1, forS: 900 });
    let watch = sound;
    for (let n = 1; n * TICK_S < 12; n++) {
      const trueS = 900 + n * TICK_S;
      const timeS = 900 + n * TICK_S * 1.34;
      watch = stepClockWatch(watch, { timeS, hostTimeS: 1000 + trueS, unbroken: true });
    }
    expect(watch.worstOffRatio).toBeGreaterThan(0.1);
  });
});

test('a board that stood still and goes on where it stood has an alarm for that, not for its rate', () => {
  let watch = hear({ rate: 1, forS: 20 });
  const { boardS } = watch;
  for (let n = 1; n < 1200; n++) {
    const timeS = boardS + Math.max(0, n - 40) * TICK_S;
    watch = stepClockWatch(watch, { timeS, hostTimeS: 1000 + boardS + n * TICK_S, unbroken: true });
  }
  expect(watch.worstOffRatio).toBeLessThan(0.01);
});

test('the longest gap between frames is kept', () => {
  expect(hear({ rate: 1, forS: 60, lost: lostFor(400, 39) }).longestGapS).toBeCloseTo(2.05, 6);
});

test('frames without the host’s time, as in older journals, are not compared', () => {
  let watch = CLOCK_WATCH_START;
  for (let n = 0; n < 2000; n++) {
    watch = stepClockWatch(watch, { timeS: n * 0.09, hostTimeS: null, unbroken: true });
  }
  expect(watch).toMatchObject({ worstOffRatio: 0, stoodS: 0, looks: 0 });
});

test('a board’s time that stands is counted by the host’s, and no longer once it moves', () => {
  let watch = hear({ rate: 1, forS: 10 });
  const timeS = watch.boardS;
  for (let n = 1; n <= 20; n++) {
    watch = stepClockWatch(watch, { timeS, hostTimeS: 1010 + n * TICK_S, unbroken: true });
  }
  expect(watch.stoodS).toBeGreaterThan(0.9);
  watch = stepClockWatch(watch, { timeS: timeS + 0.05, hostTimeS: 1011.05, unbroken: true });
  expect(watch.stoodS).toBe(0);
});
