import { describe, expect, test } from 'vitest';
import { createBreakState, stepBreak } from '../../../../sim/plant/break/break.ts';
import { demoBreakOf } from '../../../../sim/plant/break/breaks.ts';
import { kFromCelsius } from '../../../../src/core/units.ts';
import { ATMOSPHERE_PA, demoDrive, hold } from '../repair-programme.ts';

const GAS_K = kFromCelsius(23);
const PRESSED_PA = ATMOSPHERE_PA + 138_000;
const SIZES = { diameterM: 0.02, pitM: 0.003, legs: 3, longestLegM: 0.008 };

describe('resin that no longer flows', () => {
  test('keeps everything where it is once gelled', () => {
    const brk = demoBreakOf({ ...SIZES, type: 'combination-break' });
    const state = createBreakState(brk, ATMOSPHERE_PA, GAS_K);
    hold(state, brk, demoDrive(PRESSED_PA, 23), 2);
    stepBreak(state, brk, { ...demoDrive(25_000, 23), gelled: true }, 0.001);
    const gelled = structuredClone(state);
    for (const wet of [true, false])
      hold(state, brk, { ...demoDrive(25_000, 23), wet, gelled: true }, 2);
    expect(state).toEqual(gelled);
  });

  test('closes a gap that has resin in it, though none stands over the break', () => {
    const brk = demoBreakOf({ ...SIZES, type: 'crack' });
    const state = createBreakState(brk, ATMOSPHERE_PA, GAS_K);
    hold(state, brk, demoDrive(PRESSED_PA, 23), 20);
    const { frontM } = state.gaps[0]!;
    const moved = stepBreak(state, brk, { ...demoDrive(25_000, 23), wet: false }, 0.001);
    expect(moved).toBe(0);
    expect(state.gaps[0]!.frontM).toBe(frontM);
  });
});
