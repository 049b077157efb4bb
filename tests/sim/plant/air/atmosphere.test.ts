import fc from 'fast-check';
import { expect, test } from 'vitest';
import { standardAtmospherePa } from '../../../../sim/plant/air/atmosphere.ts';

const height = fc.double({ min: -2000, max: 11_000, noNaN: true });

test('pressure falls with height', () => {
  fc.assert(
    fc.property(height, height, (a, b) => {
      fc.pre(Math.abs(a - b) > 0.01);
      const [low, high] = a < b ? [a, b] : [b, a];
      expect(standardAtmospherePa(high)).toBeLessThan(standardAtmospherePa(low));
    }),
  );
});

test.each([Number.NaN, -2001, 11_001, Number.POSITIVE_INFINITY])(
  'a height of %d m is refused with what is accepted',
  (heightM) => {
    expect(() => standardAtmospherePa(heightM)).toThrow('accepted: -2000 to 11000 m');
  },
);
