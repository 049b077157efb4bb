import fc from 'fast-check';
import { expect, test } from 'vitest';

test('properties draw the same in every run: their seed is set before each file', () => {
  const { seed } = fc.readConfigureGlobal();
  expect(seed).toEqual(expect.any(Number));
  const draw = () => fc.sample(fc.integer(), 5);
  expect(draw()).toEqual(draw());
});
