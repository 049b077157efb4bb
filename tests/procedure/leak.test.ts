import fc from 'fast-check';
import { expect, test } from 'vitest';
import { addPoint, leakRatePaM3PerS, NO_POINTS, slopePaPerS } from '../../src/procedure/leak.ts';

const line = (slope: number, startPa: number, startS: number, n: number) => {
  let fit = NO_POINTS;
  for (let i = 0; i < n; i++) fit = addPoint(fit, startS + i * 0.05, startPa + slope * i * 0.05);
  return fit;
};

test('a straight rise gives back its slope, from the first second of a watch to its last', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -500, max: 500, noNaN: true }),
      fc.double({ min: 0, max: 150, noNaN: true }),
      (slope, startS) => {
        expect(slopePaPerS(line(slope, 60_000, startS, 300))).toBeCloseTo(slope, 4);
      },
    ),
  );
});

test('too few points give no rate instead of a wrong one', () => {
  expect(slopePaPerS(NO_POINTS)).toBeNull();
  expect(leakRatePaM3PerS(line(100, 60_000, 0, 1), 30e-6)).toBeNull();
});

test('steps of the converter do not hide a leak at the limit', () => {
  const stepPa = 489;
  let fit = NO_POINTS;
  for (let i = 0; i < 300; i++) {
    const pa = 60_000 + 167 * i * 0.05;
    fit = addPoint(fit, i * 0.05, Math.round(pa / stepPa) * stepPa);
  }
  const rate = leakRatePaM3PerS(fit, 30e-6) ?? 0;
  expect(Math.abs(rate - 0.005) / 0.005).toBeLessThan(0.1);
});
