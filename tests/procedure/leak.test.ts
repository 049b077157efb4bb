import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  addPoint,
  leakRatePaM3PerS,
  lineOf,
  NO_POINTS,
  type SlopeFit,
} from '../../src/procedure/leak.ts';

const fitOf = (points: readonly (readonly [s: number, pa: number])[]): SlopeFit =>
  points.reduce((fit, [s, pa]) => addPoint(fit, s, pa), NO_POINTS);

const line = (slope: number, startPa: number, startS: number, n: number): SlopeFit =>
  fitOf(Array.from({ length: n }, (_, i) => [startS + i * 0.05, startPa + slope * i * 0.05]));

test('a straight rise gives back its slope and start, from the first second to the last', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -500, max: 500, noNaN: true }),
      fc.double({ min: 0, max: 150, noNaN: true }),
      (slope, startS) => {
        const found = lineOf(line(slope, 60_000, startS, 300))!;
        expect(found.slopePaPerS).toBeCloseTo(slope, 4);
        expect(found.startPa).toBeCloseTo(60_000 - slope * startS, 1);
      },
    ),
  );
});

test('two points give no line: they lie on one whatever they are worth', () => {
  expect(lineOf(NO_POINTS)).toBeNull();
  expect(lineOf(line(100, 60_000, 0, 2))).toBeNull();
  expect(lineOf(line(100, 60_000, 0, 3))).not.toBeNull();
  expect(
    lineOf(
      fitOf([
        [1, 5],
        [1, 6],
        [1, 7],
      ]),
    ),
  ).toBeNull();
});

test('the standard error of a slope is the textbook one', () => {
  // Residuals 1, -2, 1 about the mean 1 at times 0, 1, 2: sqrt(6 / (3 - 2) / 2).
  const found = lineOf(
    fitOf([
      [0, 60_002],
      [1, 59_999],
      [2, 60_002],
    ]),
  )!;
  expect(found.slopePaPerS).toBe(0);
  expect(found.residualPa2).toBeCloseTo(6, 9);
  expect(found.slopeErrorPaPerS).toBeCloseTo(Math.sqrt(3), 9);
});

test('a leak rate is the volume times the slope', () => {
  expect(leakRatePaM3PerS(100, 30e-6)).toBeCloseTo(0.003, 12);
});

test('steps of the converter do not hide a leak at the limit', () => {
  const stepPa = 489;
  let fit = NO_POINTS;
  for (let i = 0; i < 300; i++) {
    const pa = 60_000 + 167 * i * 0.05;
    fit = addPoint(fit, i * 0.05, Math.round(pa / stepPa) * stepPa);
  }
  const rate = leakRatePaM3PerS(lineOf(fit)!.slopePaPerS, 30e-6);
  expect(Math.abs(rate - 0.005) / 0.005).toBeLessThan(0.1);
});
