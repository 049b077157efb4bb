import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cureDone, cureLeftS, type DoseState, NO_DOSE, stepDose } from '../../src/cure/dose.ts';
import type { Measured } from '../../src/frame.ts';
import { faulty, measured } from '../frames.ts';

const DT_S = 0.05;
const TARGET = { targetJPerM2: 6_000, leastS: 20, longestS: 60 };

function expose(from: DoseState, seconds: number, light: (t: number) => Measured, on = true) {
  let dose = from;
  for (let i = 0; i <= Math.round(seconds / DT_S); i++)
    dose = stepDose(dose, light(i * DT_S), on, DT_S);
  return dose;
}

describe('dose', () => {
  test('is irradiance times time in steady light', () => {
    const dose = expose(NO_DOSE, 10, () => measured(200));
    expect(dose.doseJPerM2).toBeCloseTo(2_000, 6);
    expect(dose.lampOnS).toBeCloseTo(10, 9);
  });

  test('of a straight ramp is exact, since the rule is the trapezoid', () => {
    expect(expose(NO_DOSE, 10, (t) => measured(20 * t)).doseJPerM2).toBeCloseTo(1_000, 6);
  });

  test('stands still in the dark and while the reading cannot be believed', () => {
    const before = expose(NO_DOSE, 5, () => measured(200));
    const dark = expose(before, 5, () => measured(200), false);
    const blind = expose(before, 5, () => faulty('stale'));
    expect(dark.doseJPerM2).toBe(before.doseJPerM2);
    expect(blind.doseJPerM2).toBe(before.doseJPerM2);
    expect(blind.lampOnS).toBe(before.lampOnS);
  });

  test('resumes after an interruption without counting the gap', () => {
    const first = expose(NO_DOSE, 5, () => measured(200));
    const paused = expose(first, 30, () => measured(0), false);
    const second = expose(paused, 5, () => measured(200));
    expect(second.doseJPerM2).toBeCloseTo(2_000, 6);
  });

  test('never falls, whatever is read', () => {
    const light = fc.oneof(
      fc.double({ min: 0, max: 1_000, noNaN: true }).map(measured),
      fc.constant(faulty('out-of-range')),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(light, fc.boolean())), (ticks) => {
        let dose = NO_DOSE;
        for (const [reading, on] of ticks) {
          const next = stepDose(dose, reading, on, DT_S);
          expect(next.doseJPerM2).toBeGreaterThanOrEqual(dose.doseJPerM2);
          dose = next;
        }
      }),
    );
  });
});

describe('the end of a cure', () => {
  test('needs dose and least time both', () => {
    const state = (doseJPerM2: number, lampOnS: number) => ({ doseJPerM2, lampOnS, lastWPerM2: 1 });
    expect(cureDone(state(6_000, 20), TARGET)).toBe(true);
    expect(cureDone(state(5_999, 50), TARGET)).toBe(false);
    expect(cureDone(state(9_000, 19.9), TARGET)).toBe(false);
  });

  test('a lamp half as bright takes twice as long for the dose', () => {
    const left = (lastWPerM2: number) => cureLeftS({ ...NO_DOSE, lastWPerM2 }, TARGET);
    expect(left(200)).toBe(30);
    expect(left(100)).toBe(60);
  });

  test('least time is left when the dose is met early, and there is no end in the dark', () => {
    expect(cureLeftS({ doseJPerM2: 7_000, lampOnS: 12, lastWPerM2: 500 }, TARGET)).toBe(8);
    expect(cureLeftS(NO_DOSE, TARGET)).toBe(Number.POSITIVE_INFINITY);
  });
});
