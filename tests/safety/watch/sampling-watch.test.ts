import { expect, test } from 'vitest';
import {
  SAMPLING_START,
  type SamplingWatch,
  stepSampling,
} from '../../../src/safety/watch/sampling-watch.ts';

/** Frames this far apart, each counted up to a tenth of a second, for so long. */
function frames(gapS: number, forS: number, from: SamplingWatch = SAMPLING_START): SamplingWatch {
  let watch = from;
  for (let n = 0; n < Math.round(forS / gapS); n++) {
    watch = stepSampling(watch, gapS, Math.min(gapS, 0.1));
  }
  return watch;
}

test('frames in time leave nothing uncounted', () => {
  expect(frames(0.05, 60)).toEqual(SAMPLING_START);
  expect(frames(0.1, 60).uncountedS).toBe(0);
});

test('frames 0.125 s apart leave a fifth, and the whole of it is summed up', () => {
  const { uncountedS, uncountedShare } = frames(0.125, 60);
  expect(uncountedShare).toBeCloseTo(0.2, 6);
  expect(uncountedS).toBeCloseTo(12, 6);
});

test('the share comes with a time constant of 2 s and goes with it', () => {
  // 1 - 1/e of a fifth after 2 s, and 1/e of that after 2 s more.
  const risen = frames(0.125, 2);
  expect(risen.uncountedShare).toBeCloseTo(0.2 * (1 - Math.exp(-1)), 6);
  const fallen = frames(0.05, 2, risen);
  expect(fallen.uncountedShare).toBeCloseTo(0.2 * (1 - Math.exp(-1)) * Math.exp(-1), 6);
  expect(fallen.uncountedS).toBe(risen.uncountedS);
});

test('of one frame that is very late a tenth of a second makes the share', () => {
  const { uncountedS, uncountedShare } = stepSampling(SAMPLING_START, 1, 0.1);
  expect(uncountedS).toBeCloseTo(0.9, 9);
  expect(uncountedShare).toBeCloseTo(0.1 * (1 - Math.exp(-0.5)), 9);
});

test('a frame of the same moment changes nothing', () => {
  const before = frames(0.125, 2);
  expect(stepSampling(before, 0, 0)).toBe(before);
});
