import { describe, expect, test } from 'vitest';
import { createBreakState } from '../../../../sim/plant/break/break.ts';
import { demoBreakOf } from '../../../../sim/plant/break/breaks.ts';
import { filledM3 } from '../../../../sim/plant/break/gap-shapes.ts';
import {
  bubbling,
  clarityRatio,
  frontRatios,
  looksClear,
} from '../../../../sim/plant/break/sight.ts';
import { kFromCelsius } from '../../../../src/core/units.ts';
import { ATMOSPHERE_PA, demoDrive, hold, repair } from '../repair-programme.ts';

const GAS_K = kFromCelsius(23);
const STAR = demoBreakOf({
  type: 'star-break',
  diameterM: 0.022,
  pitM: 0.003,
  legs: 5,
  longestLegM: 0.01,
});

const BULLSEYE = demoBreakOf({
  type: 'bullseye',
  diameterM: 0.022,
  pitM: 0.003,
  legs: 0,
  longestLegM: 0,
});

/** The star with its fronts at given shares of the two gaps' lengths. */
function filledTo(ratios: readonly [number, number]) {
  const state = createBreakState(STAR, ATMOSPHERE_PA, GAS_K);
  state.gaps.forEach((gapState, i) => {
    const gap = STAR.gaps[i]!;
    gapState.frontM = ratios[i]! * gap.lengthM;
    gapState.resinM3 = filledM3(gap, gapState.frontM);
  });
  return state;
}

describe('what a person sees of a break', () => {
  test('is dark while it is empty and clear once it is full', () => {
    expect(clarityRatio(filledTo([0, 0]), STAR)).toBe(0);
    expect(looksClear(filledTo([0, 0]), STAR)).toBe(false);
    expect(clarityRatio(filledTo([1, 1]), STAR)).toBe(1);
    expect(looksClear(filledTo([1, 1]), STAR)).toBe(true);
  });

  test('counts gaps by their area, and alike gaps as often as they are', () => {
    // Four legs of 0.7 of the length have 2.8 of the 3.8 parts of the area.
    expect(clarityRatio(filledTo([1, 0]), STAR)).toBeCloseTo(1 / 3.8, 12);
    expect(clarityRatio(filledTo([0, 1]), STAR)).toBeCloseTo(2.8 / 3.8, 12);
  });

  test('counts the narrow tip of a leg for less than its length', () => {
    // The tip's tenth of a leg that narrows to 0.75 is 0.1 × 0.7625 / 0.875 of its area.
    expect(1 - clarityRatio(filledTo([0.9, 0.9]), STAR)).toBeCloseTo(0.07625 / 0.875, 12);
  });

  test('is called clear with less than 4 % dark', () => {
    expect(looksClear(filledTo([0.9545, 0.9545]), STAR)).toBe(true);
    expect(looksClear(filledTo([0.953, 0.953]), STAR)).toBe(false);
  });

  test('tells how far resin has come in each gap', () => {
    expect(frontRatios(filledTo([0.25, 0.5]), STAR)).toEqual([0.25, 0.5]);
  });

  test('flatters under pressure: let off, bubbles grow again', () => {
    const state = createBreakState(BULLSEYE, ATMOSPHERE_PA, GAS_K);
    hold(state, BULLSEYE, demoDrive(ATMOSPHERE_PA + 138_000, 23), 20);
    const pressed = clarityRatio(state, BULLSEYE);
    hold(state, BULLSEYE, demoDrive(ATMOSPHERE_PA, 23), 15);
    expect(clarityRatio(state, BULLSEYE)).toBeLessThan(pressed - 0.03);
  });
});

describe('bubbles', () => {
  const seen = (state: ReturnType<typeof filledTo>): boolean =>
    bubbling(state, STAR, ATMOSPHERE_PA, GAS_K);

  test('are seen soon after the vacuum sets in, and no more once most gas has left', () => {
    const state = createBreakState(STAR, ATMOSPHERE_PA, GAS_K);
    hold(state, STAR, demoDrive(25_000, 23), 1);
    expect(seen(state)).toBe(true);
    hold(state, STAR, demoDrive(25_000, 23), 120);
    expect(seen(state)).toBe(false);
  });

  test('are not seen under pressure or through a dry mouth', () => {
    const state = createBreakState(STAR, ATMOSPHERE_PA, GAS_K);
    hold(state, STAR, { ...demoDrive(25_000, 23), wet: false }, 0.02);
    expect(seen(state)).toBe(false);
    hold(state, STAR, demoDrive(ATMOSPHERE_PA + 138_000, 23), 5);
    expect(seen(state)).toBe(false);
  });

  test('are not seen after a whole repair', () => {
    expect(seen(repair(STAR, 23).state)).toBe(false);
  });
});
