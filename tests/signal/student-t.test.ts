import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { coverageFactor, shareWithin } from '../../src/signal/student-t.ts';

describe("Student's t", () => {
  test('with one degree of freedom is the arc tangent, with two a square root', () => {
    for (const t of [0.1, 0.5, 1, 2, 10, 1_000]) {
      expect(shareWithin(t, 1)).toBeCloseTo((2 / Math.PI) * Math.atan(t), 12);
      expect(shareWithin(t, 2)).toBeCloseTo(t / Math.sqrt(2 + t * t), 12);
    }
  });

  test('becomes the normal distribution without a jump', () => {
    for (const z of [0.5, 1, 1.96, 3, 6]) {
      expect(shareWithin(z, 9.9e6)).toBeCloseTo(shareWithin(z, Number.POSITIVE_INFINITY), 6);
    }
  });

  test('has a factor for every share that gives that share back, on either side', () => {
    const degrees = fc.double({ min: 1, max: 1e6, noNaN: true });
    const coverage = fc.double({ min: 0.5, max: 0.999, noNaN: true });
    // ln gamma of half a million is 6e6, of which a double keeps 1e-9.
    fc.assert(
      fc.property(degrees, coverage, (nu, p) => {
        expect(shareWithin(coverageFactor(p, nu, 'two-sided'), nu)).toBeCloseTo(p, 8);
        const below = 0.5 + shareWithin(coverageFactor(p, nu, 'one-sided'), nu) / 2;
        expect(below).toBeCloseTo(p, 8);
      }),
    );
  });

  test('asks for a larger factor where less is known', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 1e5, noNaN: true }), (nu) => {
        const more = coverageFactor(0.95, nu * 1.1, 'two-sided');
        expect(coverageFactor(0.95, nu, 'two-sided')).toBeGreaterThan(more);
      }),
    );
  });
});
