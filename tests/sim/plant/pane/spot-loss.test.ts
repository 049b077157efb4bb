import fc from 'fast-check';
import { expect, test } from 'vitest';
import { besselK, spotLossPerM2 } from '../../../../sim/plant/pane/spot-loss.ts';

const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true });

test('the two Bessel functions belong together: K0 falls by K1', () => {
  fc.assert(
    fc.property(positive(0.01, 100), (x) => {
      const h = (1e-4 * x) / (1 + x);
      const slope = (besselK(0, x + h) - besselK(0, x - h)) / (2 * h);
      expect(-slope / besselK(1, x)).toBeCloseTo(1, 5);
    }),
  );
});

test('a small spot loses through its rim as a point, a large one as a straight edge', () => {
  // m = sqrt(15/0.004) = 61 /m. For a large x = m r, K1/K0 tends to 1 + 1/(2 x) - 1/(8 x^2).
  const finPerM = Math.sqrt(15 / 0.004);
  const large = spotLossPerM2(1, 15, 0.004);
  const edge = 1 + 1 / (2 * finPerM) - 1 / (8 * finPerM * finPerM);
  expect(large).toBeCloseTo(2 * finPerM * edge, 3);
  // For a small one K1/K0 tends to 1/(x ln(1.1229/x)), so the loss to 2/(r^2 ln(1.1229/x)).
  const radiusM = 1e-5;
  const small = spotLossPerM2(radiusM, 15, 0.004);
  const log = Math.log(2 / (finPerM * radiusM)) - 0.5772156649;
  expect((small * radiusM * radiusM * log) / 2).toBeCloseTo(1, 4);
});

test('a wider spot loses less for its area, and one without end nothing', () => {
  fc.assert(
    fc.property(
      positive(0.001, 0.2),
      positive(1.01, 4),
      positive(1, 100),
      (radiusM, times, film) => {
        const narrow = spotLossPerM2(radiusM, film, 0.004);
        expect(spotLossPerM2(radiusM * times, film, 0.004)).toBeLessThan(narrow);
      },
    ),
  );
  expect(spotLossPerM2(Number.POSITIVE_INFINITY, 15, 0.004)).toBe(0);
});
