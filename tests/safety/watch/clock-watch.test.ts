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
  readonly gapAt?: number;
}

const TICK_S = 0.05;

/** Frames of a board for a time, as the host hears them. */
function hear({ rate, forS, late = () => 0, gapAt }: Line, from: ClockWatch = CLOCK_WATCH_START) {
  let watch = from;
  for (let n = 0; n * TICK_S < forS; n++) {
    const trueS = n * TICK_S;
    const hostTimeS = 1000 + trueS + late(n);
    watch = stepClockWatch(watch, { timeS: trueS * rate, hostTimeS, unbroken: n !== gapAt });
  }
  return watch;
}

describe('a clock that keeps time', () => {
  test.each([
    ['at the host’s rate', { rate: 1, forS: 300 }],
    ['a resonator half a per cent off', { rate: 1.005, forS: 300 }],
    ['over a line that delays each frame by up to 0.3 s', { rate: 1, forS: 300, late: jitter }],
    [
      'while the host is busy for four seconds each half minute',
      { rate: 1, forS: 300, late: busy },
    ],
  ])('is not more than 1 %% off: %s', (_, line: Line) => {
    expect(hear(line).worstOffRatio).toBeLessThan(0.01);
  });
});

/** Repeatable, never the same twice in a row. */
function jitter(n: number): number {
  return ((n * 7919) % 97) / 97 / 3.3;
}
function busy(n: number): number {
  const inHalfMinuteS = (n * TICK_S) % 30;
  return inHalfMinuteS < 4 ? 4 - inHalfMinuteS : 0;
}

describe('a clock that does not', () => {
  test.each([1.34, 1.03, 0.97, 0.75])('is found within 36 s at %s of true time', (rate) => {
    expect(hear({ rate, forS: 36 }).worstOffRatio).toBeCloseTo(Math.abs(1 - rate), 2);
  });

  test('is found under a late line too', () => {
    expect(hear({ rate: 1.34, forS: 40, late: jitter }).worstOffRatio).toBeGreaterThan(0.3);
  });

  test('stays found, whatever it does afterwards', () => {
    const found = hear({ rate: 1.34, forS: 40 });
    expect(hear({ rate: 1, forS: 120 }, found).worstOffRatio).toBeGreaterThan(0.3);
  });
});

describe('what is not compared', () => {
  test('frames across a gap: the comparison begins anew', () => {
    const line = { rate: 1.34, forS: 50, gapAt: 500 };
    expect(hear(line).worstOffRatio).toBe(0);
    expect(hear({ ...line, forS: 62 }).worstOffRatio).toBeGreaterThan(0.3);
  });

  test('frames without the host’s time, as in older journals', () => {
    let watch = CLOCK_WATCH_START;
    for (let n = 0; n < 2000; n++) {
      watch = stepClockWatch(watch, { timeS: n * 0.09, hostTimeS: null, unbroken: true });
    }
    expect(watch).toMatchObject({ worstOffRatio: 0, stoodS: 0 });
  });
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
