import { describe, expect, test } from 'vitest';
import { DEMO_CURING } from '../../../../sim/plant/light/cure.ts';
import {
  createOpenResinState,
  setViscosityRatio,
  stepOpenResin,
} from '../../../../sim/plant/light/open-resin.ts';

function wait(seconds: number, ambientUvWPerM2: number, dtS = 0.05) {
  const state = createOpenResinState();
  for (let i = 0; i < Math.round(seconds / dtS); i++) {
    stepOpenResin(state, DEMO_CURING, ambientUvWPerM2, dtS);
  }
  return state;
}

describe('resin that waits under daylight', () => {
  test('keeps for ever in the dark', () => {
    expect(wait(1000, 0)).toEqual(createOpenResinState());
  });

  test('starts to set when its oxygen is used up, and then as it would under the lamp', () => {
    const effective = 10 * DEMO_CURING.daylightEffect;
    expect(wait(9.75, 10).conversion).toBe(0);
    const set = wait(30, 10);
    expect(set.doseJPerM2).toBeCloseTo(effective * 30, 9);
    const startS = 100 / effective;
    const rate = 0.01656 * Math.sqrt(effective / 100);
    expect(set.conversion).toBeCloseTo(1 - Math.exp(-rate * (30 - startS)), 10);
  });

  test('gels within half a minute in full sun and lasts a job of a quarter of an hour in a dim shop', () => {
    expect(wait(30, 60).conversion).toBeGreaterThan(DEMO_CURING.gelConversion);
    expect(wait(960, 0.1).conversion).toBe(0);
  });

  test('does not depend on the length of a step', () => {
    expect(wait(60, 10, 1).conversion).toBeCloseTo(wait(60, 10, 0.01).conversion, 10);
  });
});

test('part-set resin flows thicker, four times at half the gel point and not at all from it on', () => {
  expect(setViscosityRatio(0, DEMO_CURING)).toBe(1);
  expect(setViscosityRatio(0.05, DEMO_CURING)).toBeCloseTo(4, 12);
  expect(setViscosityRatio(0.1, DEMO_CURING)).toBe(Number.POSITIVE_INFINITY);
  expect(setViscosityRatio(0.5, DEMO_CURING)).toBe(Number.POSITIVE_INFINITY);
});
