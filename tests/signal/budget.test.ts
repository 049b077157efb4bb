import { describe, expect, test } from 'vitest';
import {
  type BudgetInput,
  budgetOf,
  largestPart,
  repeated,
  within,
} from '../../src/signal/budget.ts';

const input = (change: Partial<BudgetInput>): BudgetInput => ({
  name: 'demo',
  value: 0,
  unit: 'Pa',
  kind: 'B',
  distribution: 'normal',
  spread: 1,
  sensitivity: 1,
  degreesOfFreedom: Number.POSITIVE_INFINITY,
  ...change,
});
const standard = (change: Partial<BudgetInput>): number => budgetOf([input(change)]).standard;

describe('a budget', () => {
  test('takes a normal spread as it is, and half-widths by the roots of 3 and 6', () => {
    expect(standard({ spread: 6 })).toBe(6);
    expect(standard({ spread: 6, distribution: 'rectangular' })).toBeCloseTo(3.4641016, 6);
    expect(standard({ spread: 6, distribution: 'triangular' })).toBeCloseTo(2.4494897, 6);
  });

  test('counts a part by its sensitivity, whichever way it works', () => {
    expect(standard({ sensitivity: 3 })).toBe(3);
    expect(standard({ sensitivity: -3 })).toBe(3);
  });

  test('adds parts by their squares', () => {
    expect(budgetOf([input({ spread: 3 }), input({ spread: 4 })]).standard).toBe(5);
  });

  test('has as many degrees of freedom as its parts, added where they weigh the same', () => {
    const a = input({ degreesOfFreedom: 7 });
    expect(budgetOf([a]).degreesOfFreedom).toBeCloseTo(7, 12);
    expect(budgetOf([a, a]).degreesOfFreedom).toBeCloseTo(14, 12);
    // A part that is known for sure makes the sum surer: (sqrt 2)^4 / (1/7).
    expect(budgetOf([a, input({})]).degreesOfFreedom).toBeCloseTo(28, 12);
  });

  test('is infinitely sure of itself where every part is, and where there is nothing', () => {
    expect(budgetOf([input({})]).degreesOfFreedom).toBe(Number.POSITIVE_INFINITY);
    expect(budgetOf([])).toMatchObject({ standard: 0, degreesOfFreedom: Number.POSITIVE_INFINITY });
    expect(budgetOf([input({ spread: 0, degreesOfFreedom: 3 })])).toMatchObject({
      standard: 0,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
    });
  });

  test('names its largest part', () => {
    const parts = [input({ name: 'a', spread: 2 }), input({ name: 'b', spread: 5 })];
    expect(largestPart(budgetOf(parts))?.name).toBe('b');
    expect(largestPart(budgetOf(parts.toReversed()))?.name).toBe('b');
    const alike = [input({ name: 'first' }), input({ name: 'second' })];
    expect(largestPart(budgetOf(alike))?.name).toBe('first');
    expect(largestPart(budgetOf([]))).toBeUndefined();
  });

  test('has limits of type B, and repeated readings of type A with one degree less than readings', () => {
    const given = { name: 'demo', value: 0, unit: 'K', spread: 1, sensitivity: 1 };
    expect(within(given)).toMatchObject({ kind: 'B', distribution: 'rectangular' });
    expect(repeated(given, 20)).toMatchObject({
      kind: 'A',
      distribution: 'normal',
      degreesOfFreedom: 19,
    });
  });
});
