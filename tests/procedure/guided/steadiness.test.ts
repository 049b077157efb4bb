import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createChance } from '../../../sim/random.ts';
import {
  addSample,
  endOf,
  meanOf,
  NO_SAMPLES,
  slopeOf,
  type Window,
} from '../../../src/procedure/guided/steadiness.ts';

const windowOf = (value: (timeS: number) => number, seconds: number, windowS = 10): Window => {
  let window = NO_SAMPLES;
  for (let i = 0; i <= seconds * 20; i++)
    window = addSample(window, i / 20, value(i / 20), windowS);
  return window;
};

describe('the window', () => {
  test('keeps what is no older than it, and begins anew after a reading that is none', () => {
    const window = windowOf((t) => t, 30);
    expect(window).toHaveLength(201);
    expect(window[0]?.timeS).toBe(20);
    expect(addSample(window, 30.05, null, 10)).toEqual(NO_SAMPLES);
  });

  test('takes no reading twice', () => {
    const window = windowOf(() => 1, 1);
    expect(addSample(window, 1, 5, 10)).toBe(window);
  });
});

describe('mean, end and slope', () => {
  test('there is none before the window reaches back far enough', () => {
    expect(
      meanOf(
        windowOf(() => 1, 4.9),
        5,
      ),
    ).toBeNull();
    expect(
      meanOf(
        windowOf(() => 1, 5),
        5,
      )?.mean,
    ).toBe(1);
    expect(
      slopeOf(
        windowOf(() => 1, 9),
        10,
      ),
    ).toBeNull();
    expect(
      slopeOf(
        windowOf(() => 1, 10),
        10,
      ),
    ).toBe(0);
  });

  test('a straight line gives its slope and its last value exactly, and its mean from the middle', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e3, max: 1e3, noNaN: true }),
        fc.double({ min: -50, max: 50, noNaN: true }),
        (start, slope) => {
          const window = windowOf((t) => start + slope * t, 20);
          expect(slopeOf(window, 10)).toBeCloseTo(slope, 6);
          expect(endOf(window, 10)?.mean).toBeCloseTo(start + slope * 20, 6);
          expect(meanOf(window, 10)?.mean).toBeCloseTo(start + slope * 15, 6);
        },
      ),
    );
  });

  test('the end of a noisy line scatters by what is said of it', () => {
    const chance = createChance(7, 'noise');
    let squares = 0;
    let said = 0;
    const runs = 300;
    for (let run = 0; run < runs; run++) {
      const end = endOf(
        windowOf((t) => 3 * t + chance.gaussian(), 10),
        10,
      );
      if (end === null) throw new Error('no end');
      squares += (end.mean - 30) ** 2;
      said += end.standardDeviation ** 2 / end.n + end.ownStandard ** 2;
    }
    // A variance from 300 runs is known to 8 % (1 sd): three of them either way.
    expect(squares / said).toBeGreaterThan(0.75);
    expect(squares / said).toBeLessThan(1.25);
  });
});
