import { describe, expect, test } from 'vitest';
import { addReading, NO_RISE, type RiseSums, riseOf } from '../../src/procedure/rise.ts';
import { levelling, readingsOf } from './repair/seal/valve-off.ts';

/** Exact readings, every tick. */
function exact(pressurePa: (timeS: number) => number, untilS = 47): RiseSums {
  let sums = NO_RISE;
  for (let i = 40; i <= untilS * 20; i++) sums = addReading(sums, i * 0.05, pressurePa(i * 0.05));
  return sums;
}

test('an exact line is straight, and its range is as narrow as its scatter', () => {
  const rise = riseOf(exact((t) => 60_000 + 120 * t))!;
  expect(rise.shape).toBe('straight');
  expect(rise.slopePaPerS.best).toBeCloseTo(120, 6);
  expect(rise.slopePaPerS.high - rise.slopePaPerS.low).toBeLessThan(1e-3);
  expect(rise.startPa).toBeCloseTo(60_000, 3);
  expect(rise.firstPa).toBeCloseTo(60_240, 6);
});

test('an exact bend gives back height, slope, time constant and the pressure at isolation', () => {
  const rise = riseOf(exact((t) => 60_000 + 20 * t + 2_000 * (1 - Math.exp(-t / 7))))!;
  expect(rise.shape).toBe('bent');
  if (rise.shape !== 'bent') return;
  expect(rise.tauS).toBe(7);
  expect(rise.heightPa.best).toBeCloseTo(2_000, 3);
  expect(rise.slopePaPerS.best).toBeCloseTo(20, 4);
  expect(rise.startPa).toBeCloseTo(60_000, 3);
});

test('a fall is no leak outwards: its slope is never below zero, its height is', () => {
  const rise = riseOf(exact((t) => 60_000 - 5 * t - 2_000 * (1 - Math.exp(-t / 7))))!;
  expect(rise.shape).toBe('bent');
  if (rise.shape !== 'bent') return;
  expect(rise.slopePaPerS.best).toBeGreaterThanOrEqual(0);
  expect(rise.heightPa.high).toBeLessThan(-1_900);
});

test('only every third reading counts: neighbours share samples of the middle of three', () => {
  const sums = exact((t) => 60_000 + t);
  expect(sums.readings).toBe(901);
  expect(sums.line.n).toBe(301);
  expect(sums.bends[0]!.sumE).toBeGreaterThan(0);
});

test('fewer than 30 points are no watch', () => {
  const of = (readings: number): RiseSums => exact((t) => 60_000 + t, 2 + (readings - 1) / 20);
  expect(riseOf(of(87))).toBeNull();
  expect(riseOf(of(88))).not.toBeNull();
});

describe('ranges of 95 %, over 300 seeded series', () => {
  // 95 % of 300 is 285; five standard deviations of a binomial below that is 266.
  const FEWEST = 266;
  const within = (range: { low: number; high: number }, truth: number): boolean =>
    range.low <= truth && truth <= range.high;
  const runs = (rise: (t: number) => number) =>
    Array.from({ length: 300 }, (_, seed) =>
      riseOf(readingsOf(seed, { rise, glassC: 23 }).sums),
    ).filter((found) => found !== null);

  test('hold the slope of a straight rise', () => {
    const found = runs((t) => 80 * t);
    expect(found.every(({ shape }) => shape === 'straight')).toBe(true);
    expect(found.filter((r) => within(r.slopePaPerS, 80)).length).toBeGreaterThan(FEWEST);
  });

  test('hold the height of a plateau, and are no wider than half of it', () => {
    const found = runs(levelling(2_800, 10)).filter((r) => r.shape === 'bent');
    expect(found).toHaveLength(300);
    expect(found.filter((r) => within(r.heightPa, 2_800)).length).toBeGreaterThan(FEWEST);
    const widths = found.map(({ heightPa }) => heightPa.high - heightPa.low).sort((a, b) => a - b);
    expect(widths[150]).toBeLessThan(1_400);
  });
});
