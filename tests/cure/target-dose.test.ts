import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type DoseRules,
  exposureToCureJPerM2,
  targetDoseOf,
  type WorkingCurve,
} from '../../src/cure/target-dose.ts';

const RULES: DoseRules = { targetAtResinJPerM2: 54_000, marginFactor: 2 };
/** A film that lets nine tenths through. */
const FILM = 0.9;
const CURVE: WorkingCurve = { criticalJPerM2: 1000, penetrationM: 1e-3 };

const curve = fc.record({
  criticalJPerM2: fc.double({ min: 10, max: 10_000, noNaN: true }),
  penetrationM: fc.double({ min: 2e-4, max: 5e-3, noNaN: true }),
});
const depthM = fc.double({ min: 1e-4, max: 3e-3, noNaN: true });

describe('the dose that a depth asks for', () => {
  test('cures that depth by the working curve, and no more', () => {
    fc.assert(
      fc.property(curve, depthM, (resin, depth) => {
        const exposure = exposureToCureJPerM2(resin, depth);
        const curedM = resin.penetrationM * Math.log(exposure / resin.criticalJPerM2);
        expect(Math.abs(curedM - depth)).toBeLessThan(1e-9);
      }),
    );
  });

  test('is the critical exposure at the very face, and e times that at the penetration depth', () => {
    expect(exposureToCureJPerM2(CURVE, 0)).toBe(1000);
    expect(exposureToCureJPerM2(CURVE, 1e-3)).toBeCloseTo(2718.28, 2);
  });

  test('grows by the margin and by what the film keeps back', () => {
    const { breakJPerM2 } = targetDoseOf(RULES, FILM, 1e-3, CURVE);
    expect(breakJPerM2).toBeCloseTo((2718.2818 * 2) / 0.9, 1);
  });
});

describe("the job's target", () => {
  test('is stated at the resin, and typed or derived the sensor must read it over the film', () => {
    const typed = targetDoseOf(RULES, FILM, 1e-4, CURVE);
    expect([typed.setBy, typed.atResinJPerM2]).toEqual(['profile', 54_000]);
    expect(typed.targetJPerM2).toBeCloseTo(60_000, 6);
    // 1000 exp(2.9) by the margin of 2.
    const deepJPerM2 = 36_348.29;
    const bare = targetDoseOf({ ...RULES, targetAtResinJPerM2: 100 }, FILM, 2.9e-3, CURVE);
    expect(bare.setBy).toBe('break');
    expect(bare.atResinJPerM2).toBeCloseTo(deepJPerM2, 1);
    expect(bare.targetJPerM2).toBeCloseTo(deepJPerM2 / 0.9, 1);
  });

  test('at the sensor never falls as less light reaches the resin, and at the resin stays', () => {
    const ratio = fc.double({ min: 0.05, max: 1, noNaN: true });
    fc.assert(
      fc.property(curve, depthM, ratio, ratio, (resin, depth, one, other) => {
        const [dark, bright] = one < other ? [one, other] : [other, one];
        const [more, less] = [dark, bright].map((r) => targetDoseOf(RULES, r, depth, resin));
        expect(more?.atResinJPerM2).toBe(less?.atResinJPerM2);
        expect(more?.targetJPerM2).toBeGreaterThanOrEqual(less?.targetJPerM2 ?? Number.NaN);
        // What the sensor reads, less what is lost on the way, is the target at the resin.
        expect((more?.targetJPerM2 ?? 0) * dark).toBeCloseTo(more?.atResinJPerM2 ?? 0, 6);
      }),
    );
  });

  test('is the profile’s where the break asks for less, and the break’s where it asks for more', () => {
    // 60 kJ/m2 is asked for at ln(27) of the penetration depth.
    const evenM = Math.log((60_000 * 0.9) / (2 * 1000)) * 1e-3;
    expect(targetDoseOf(RULES, FILM, evenM * 0.999, CURVE)).toMatchObject({
      targetJPerM2: 60_000,
      setBy: 'profile',
    });
    const deeper = targetDoseOf(RULES, FILM, evenM * 1.001, CURVE);
    expect(deeper.setBy).toBe('break');
    expect(deeper.targetJPerM2).toBe(deeper.breakJPerM2);
    expect(deeper.targetJPerM2).toBeGreaterThan(60_000);
  });

  test('is the profile’s where depth or working curve is not known', () => {
    const unknown = {
      targetJPerM2: 60_000,
      atResinJPerM2: 54_000,
      setBy: 'profile',
      breakJPerM2: null,
    };
    expect(targetDoseOf(RULES, FILM, null, CURVE)).toEqual(unknown);
    expect(targetDoseOf(RULES, FILM, 2e-3, null)).toEqual(unknown);
  });

  test('is never less than the profile’s and never falls with depth', () => {
    fc.assert(
      fc.property(curve, depthM, depthM, (resin, one, other) => {
        const [shallow, deep] = one < other ? [one, other] : [other, one];
        const less = targetDoseOf(RULES, FILM, shallow, resin).targetJPerM2;
        expect(less).toBeGreaterThanOrEqual(60_000);
        expect(targetDoseOf(RULES, FILM, deep, resin).targetJPerM2).toBeGreaterThanOrEqual(less);
      }),
    );
  });
});
