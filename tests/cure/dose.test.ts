import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Measured } from '../../src/core/frame.ts';
import {
  cureDone,
  cureLeftS,
  type DoseState,
  forecastS,
  NO_DOSE,
  stepDose,
} from '../../src/cure/dose.ts';
import type { DoseUncertaintyTerms } from '../../src/cure/dose-uncertainty.ts';
import { faulty, measured } from '../frames.ts';

const DT_S = 0.05;
/** A sensor that is never wrong, and one whose gain is known to 3 %, with a margin of 1.5 of that. */
const NO_DOUBT: DoseUncertaintyTerms = {
  gainRatio: 0,
  biasRatio: 0,
  zeroWPerM2: 0,
  randomWPerM2: 0,
  coverageFactor: 1.5,
};
const DOUBT: DoseUncertaintyTerms = { ...NO_DOUBT, gainRatio: 0.03 };
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

describe('the stretches of light', () => {
  test('are counted: one for every time that the light came back', () => {
    expect(expose(NO_DOSE, 1, () => measured(200)).pieces).toBe(1);
    const first = expose(NO_DOSE, 1, () => measured(200));
    const blind = expose(first, 1, () => faulty('stale'));
    expect(expose(blind, 1, () => measured(200)).pieces).toBe(2);
  });
});

describe('the end of a cure', () => {
  const state = (doseJPerM2: number, lampOnS: number, lastWPerM2 = 1, pieces = 0): DoseState => ({
    doseJPerM2,
    lampOnS,
    pieces,
    lastWPerM2,
  });

  test('needs dose and least time both', () => {
    expect(cureDone(state(6_000, 20), TARGET, NO_DOUBT)).toBe(true);
    expect(cureDone(state(5_999, 50), TARGET, NO_DOUBT)).toBe(false);
    expect(cureDone(state(9_000, 19.9), TARGET, NO_DOUBT)).toBe(false);
  });

  test('needs the dose to be over its target by its own uncertainty, k times', () => {
    // dose (1 - 1.5 x 0.03) = 6000 at 6282.72.
    expect(cureDone(state(6_283, 50), TARGET, DOUBT)).toBe(true);
    expect(cureDone(state(6_282, 50), TARGET, DOUBT)).toBe(false);
  });

  test('a lamp half as bright takes twice as long for the dose', () => {
    const left = (lastWPerM2: number) => cureLeftS(NO_DOSE, lastWPerM2, TARGET, NO_DOUBT);
    // And k times the standard uncertainty of the tenth of a second at its beginning.
    const edgeS = (1.5 * 0.1) / Math.sqrt(3);
    expect(left(200)).toBeCloseTo(30 + edgeS, 2);
    expect(left(100)).toBeCloseTo(60 + edgeS, 2);
  });

  test('the margin is in the time that is left, and in the forecast of a whole cure', () => {
    expect(cureLeftS(state(6_000, 50), 100, TARGET, DOUBT)).toBeCloseTo(2.827, 1);
    expect(forecastS(100, TARGET, DOUBT)).toBeCloseTo(62.827, 0);
    expect(forecastS(0, TARGET, DOUBT)).toBe(Number.POSITIVE_INFINITY);
  });

  test('least time is left when the dose is met early, and there is no end in the dark', () => {
    expect(cureLeftS(state(7_000, 12), 500, TARGET, DOUBT)).toBe(8);
    expect(cureLeftS(NO_DOSE, 0, TARGET, DOUBT)).toBe(Number.POSITIVE_INFINITY);
  });
});
