import { describe, expect, test } from 'vitest';
import { waterSaturationPa } from '../../../../src/core/water.ts';
import {
  type SealTest,
  sealVerdictOf,
  VAPOUR_UNCLEAR,
} from '../../../../src/procedure/repair/seal/seal-finding.ts';
import type { Range, Rise } from '../../../../src/procedure/rise.ts';
import { LEAK_LIMIT, VOLUME_M3 } from './valve-off.ts';

const GLASS_K = 296.15;
const WATER_PA = waterSaturationPa(GLASS_K);
const LIMIT_PA_PER_S = LEAK_LIMIT / VOLUME_M3;
const TEST: SealTest = {
  leakLimitPaM3PerS: LEAK_LIMIT,
  volumeM3: VOLUME_M3,
  settledS: 2,
  watchedS: 47,
  isolatedPa: 60_000,
  glassK: GLASS_K,
};
const range = (low: number, high: number): Range => ({ low, best: (low + high) / 2, high });
const straight = (slope: Range, change: Partial<Rise> = {}): Rise =>
  ({ shape: 'straight', firstPa: 60_000, startPa: 60_000, slopePaPerS: slope, ...change }) as Rise;
const bent = (heightPa: Range, change: Partial<Extract<Rise, { shape: 'bent' }>> = {}): Rise => ({
  shape: 'bent',
  firstPa: 60_400,
  startPa: 60_000,
  slopePaPerS: range(10, 20),
  heightPa,
  tauS: 9.3,
  ...change,
});
const named = (rise: Rise | null, change: Partial<SealTest> = {}) =>
  sealVerdictOf(rise, { ...TEST, ...change });
const finding = (rise: Rise | null, change: Partial<SealTest> = {}) => named(rise, change).finding;

describe('a straight rise', () => {
  test('is tight where the whole range is within the limit, a leak where the whole is over it', () => {
    const limit = LIMIT_PA_PER_S;
    expect(finding(straight(range(limit - 4, limit)))).toBe('tight');
    expect(finding(straight(range(limit - 4, limit + 0.1)))).toBe('unclear');
    expect(finding(straight(range(limit, limit + 4)))).toBe('unclear');
    expect(finding(straight(range(limit + 0.1, limit + 4)))).toBe('leak');
  });

  test('has its rate stated with half of its range', () => {
    const verdict = named(straight(range(90, 110)));
    expect(verdict.leakRatePaM3PerS).toBeCloseTo(100 * VOLUME_M3, 12);
    expect(verdict.leakRateUncertaintyPaM3PerS).toBeCloseTo(10 * VOLUME_M3, 12);
    expect(verdict.risePlateauPa).toBeNull();
  });

  test('that began with a jump is a leak that was over before the watch began', () => {
    const flat = range(-1, 1);
    expect(finding(straight(flat, { startPa: 63_000 }))).toBe('tight');
    const jumped = named(straight(flat, { startPa: 63_001, firstPa: 100_000 }));
    expect(jumped.finding).toBe('leak');
    expect(jumped.leakRatePaM3PerS).toBeCloseTo(VOLUME_M3 * 20_000, 9);
  });
});

describe('a rise that levels off', () => {
  const share = (low: number, high: number, change = {}) =>
    bent(range(low * WATER_PA, high * WATER_PA), change);

  test('is water above 0.6 of its saturation pressure, outgassing below, and else unclear', () => {
    expect(finding(share(0.61, 1.4))).toBe('moisture');
    expect(finding(share(0.59, 1))).toBe('unclear');
    expect(named(share(0.59, 1)).why).toBe(VAPOUR_UNCLEAR);
    expect(finding(share(0.1, 0.61))).toBe('unclear');
    expect(finding(share(0.1, 0.59))).toBe('outgassing');
    expect(finding(share(-0.1, 0.3))).toBe('outgassing');
    expect(finding(share(-0.5, -0.1))).toBe('unclear');
  });

  test('is judged by the temperature of the glass, and not at all without it', () => {
    const atCold = bent(range(900, 1_100));
    expect(finding(atCold, { glassK: 283.15 })).toBe('moisture');
    expect(finding(atCold, { glassK: 296.15 })).toBe('outgassing');
    expect(named(atCold, { glassK: null })).toMatchObject({
      finding: 'unclear',
      why: 'glass-unknown',
    });
  });

  test('above what water can give is a leak where air came in fast enough, else unclear', () => {
    // First slope: 15 + height / tau times exp(-2 / tau).
    const high = share(1.31, 1.5);
    expect(named(high).leakRatePaM3PerS).toBeCloseTo(
      VOLUME_M3 * (15 + ((1.405 * WATER_PA) / 9.3) * Math.exp(-2 / 9.3)),
      9,
    );
    expect(finding(high)).toBe('leak');
    expect(finding(share(1.29, 1.5))).toBe('moisture');
    expect(finding(share(1.31, 1.5, { tauS: 39 }))).toBe('unclear');
  });

  test('must be seen to level: twice its time constant lies in the watch', () => {
    expect(finding(share(0.9, 1.1, { tauS: 23.5 }))).toBe('moisture');
    expect(finding(share(0.9, 1.1, { tauS: 23.6 }))).toBe('unclear');
  });

  test('with a leak over the limit under it is a leak, and unclear where that may be so', () => {
    const limit = LIMIT_PA_PER_S;
    expect(finding(share(0.9, 1.1, { slopePaPerS: range(limit + 1, limit + 9) }))).toBe('leak');
    expect(finding(share(0.9, 1.1, { slopePaPerS: range(limit - 9, limit + 1) }))).toBe('unclear');
    expect(finding(share(0.9, 1.1, { slopePaPerS: range(limit - 9, limit) }))).toBe('moisture');
  });

  test('has its height stated', () => {
    expect(named(share(0.9, 1.1)).risePlateauPa).toBeCloseTo(WATER_PA, 6);
  });
});

test('without a rise nothing is stated, and the reason fits the display', () => {
  expect(named(null)).toEqual({
    finding: 'unclear',
    why: 'too-few-readings',
    leakRatePaM3PerS: null,
    leakRateUncertaintyPaM3PerS: null,
    risePlateauPa: null,
  });
});
