/** A sample of what `false-accepts.hours.test.ts` counts on 3,000 cures. */
import { expect, test } from 'vitest';
import { atLeast, countCures } from './false-accepts.ts';

test('the binomial law: 3 or more of 60 at 5 % in 58.3 % of all cases, 10 or more hardly ever', () => {
  expect(atLeast(0, 60, 0.05)).toBe(1);
  expect(atLeast(3, 60, 0.05)).toBeCloseTo(0.583, 3);
  expect(atLeast(10, 60, 0.05)).toBeLessThan(1e-3);
});

test('of 20 drawn units all show their dose, silently, and hardly one is wrong about it', () => {
  const { met, falselyMet, falselyNot, alarms } = countCures(10_001, 20);
  expect([met, falselyNot, alarms]).toEqual([20, 0, []]);
  // More than this has a chance below 1 in 1000 where 5 % are wrong.
  expect(atLeast(falselyMet + 1, 20, 0.05)).toBeGreaterThan(1e-3);
});
