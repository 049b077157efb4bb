import { describe, expect, test } from 'vitest';
import {
  NO_UNCOUNTED_LIGHT,
  stepUncountedLight,
  type UncountedLight,
} from '../../src/cure/uncounted-light.ts';
import { faulty, measured } from '../frames.ts';

const LIT = { lampOn: true, on: 'fill' } as const;
/** A reading in time, so that nothing goes uncounted. */
const read = (from: UncountedLight, wPerM2: number): UncountedLight =>
  stepUncountedLight(from, measured(wPerM2), LIT, 0);

describe('light between two late frames', () => {
  test.each([
    ['the one before', 200, 100],
    ['the one after', 100, 200],
  ])('is taken as bright as the brighter of both readings, here %s', (_, before, after) => {
    const from = read(NO_UNCOUNTED_LIGHT, before);
    const { doseJPerM2, lampOnS } = stepUncountedLight(from, measured(after), LIT, 0.4);
    expect(doseJPerM2.fill).toBeCloseTo(200 * 0.4, 9);
    expect(lampOnS.fill).toBeCloseTo(0.4, 9);
  });

  test('is taken as bright as before where the reading after it failed', () => {
    const from = read(NO_UNCOUNTED_LIGHT, 150);
    const { doseJPerM2, lastWPerM2 } = stepUncountedLight(from, faulty('stale'), LIT, 0.2);
    expect(doseJPerM2.fill).toBeCloseTo(150 * 0.2, 9);
    expect(lastWPerM2).toBe(150);
  });

  test('adds up, and only on the portion in the light', () => {
    const once = stepUncountedLight(read(NO_UNCOUNTED_LIGHT, 100), measured(100), LIT, 0.5);
    const pit = stepUncountedLight(once, measured(100), { lampOn: true, on: 'pit' }, 0.1);
    const both = stepUncountedLight(pit, measured(100), { lampOn: true, on: 'both' }, 0.2);
    expect([both.doseJPerM2.fill, both.doseJPerM2.pit].map(Math.round)).toEqual([70, 30]);
    expect(both.lampOnS.fill).toBeCloseTo(0.7, 9);
    expect(both.lampOnS.pit).toBeCloseTo(0.3, 9);
  });

  test('is none in the dark, and what the lamp gave before the dark is forgotten', () => {
    const from = read(NO_UNCOUNTED_LIGHT, 200);
    const dark = stepUncountedLight(from, measured(200), { lampOn: false, on: 'fill' }, 5);
    expect(dark.doseJPerM2.fill).toBe(0);
    const dim = stepUncountedLight(dark, measured(50), LIT, 0.2);
    expect(dim.doseJPerM2.fill).toBeCloseTo(50 * 0.2, 9);
  });

  test('is none while every frame comes in time', () => {
    const after = read(read(NO_UNCOUNTED_LIGHT, 200), 210);
    expect([after.doseJPerM2.fill, after.lampOnS.fill, after.lastWPerM2]).toEqual([0, 0, 210]);
  });
});
