/** Light along a crack from a lamp that is moved on: what the least lit resin of each field gets. */
import { expect, test } from 'vitest';
import { litRowOf } from '../../../sim/board/field-row.ts';

/** Full light in the spot, none beyond it. */
const even = (): number => 1;
const ROW = { count: 2, apartM: 0.018, fieldLengthM: 0.028, litLengthM: 0.046, pitM: 0.001 };

test('a field is lit from its own place, and its far end from there alone', () => {
  const { fieldRatios } = litRowOf(ROW, 0.015, even);
  expect(fieldRatios).toEqual([
    [1, 0],
    [0, 1],
  ]);
});

test('resin that both places light is not the least lit', () => {
  // Fields that lie one on the other: all of the resin is lit from both.
  const { fieldRatios } = litRowOf({ ...ROW, apartM: 0, litLengthM: 0.028 }, 0.015, even);
  expect(fieldRatios).toEqual([
    [1, 1],
    [1, 1],
  ]);
});

test('the least lit resin of a field lies at its end, where the spot has fallen off', () => {
  // 10 % less at 15 mm, as a parabola: at 14 mm 8.71 %.
  const falling = (radiusM: number): number => 1 - 0.1 * (radiusM / 0.015) ** 2;
  const { fieldRatios, pitRatios } = litRowOf(ROW, 0.015, falling);
  expect(fieldRatios[0]?.[0]).toBeCloseTo(0.9129, 4);
  expect(fieldRatios[1]?.[1]).toBeCloseTo(0.9129, 4);
  // The pit lies 13 mm from the first axis and beyond the spot of the second.
  expect(pitRatios[0]).toBeCloseTo(0.9249, 4);
  expect(pitRatios[1]).toBe(0);
});
