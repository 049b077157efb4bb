import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  actinicWeight,
  permissibleEyeTimeS,
  permissibleSkinTimeS,
} from '../../src/cure/uv-hazard.ts';

test('eyes may take 10 000 J/m² of near UV in a day of 8 h, however weak the light', () => {
  expect(permissibleEyeTimeS(200)).toBe(50);
  expect(permissibleEyeTimeS(1000)).toBe(10);
  expect(permissibleEyeTimeS(10)).toBe(1000);
  expect(permissibleEyeTimeS(1)).toBe(10_000);
  // 10 000 J/m2 in 28 800 s are 0.347 W/m2.
  expect(permissibleEyeTimeS(0.348)).toBeLessThanOrEqual(28_800);
  expect(permissibleEyeTimeS(0.347)).toBe(Number.POSITIVE_INFINITY);
  expect(permissibleEyeTimeS(0)).toBe(Number.POSITIVE_INFINITY);
});

test('time times irradiance is the limit wherever there is one', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.35, max: 1e5, noNaN: true }), (irradiance) => {
      expect(permissibleEyeTimeS(irradiance) * irradiance).toBeCloseTo(10_000, 6);
    }),
  );
});

test('270 nm burns most, and nothing counts outside 210 to 400 nm', () => {
  expect(actinicWeight(270)).toBe(1);
  for (let nm = 210; nm <= 400; nm++) {
    expect(actinicWeight(nm)).toBeGreaterThan(0);
    if (nm !== 270) expect(actinicWeight(nm)).toBeLessThan(1);
  }
  expect(actinicWeight(209)).toBe(0);
  expect(actinicWeight(401)).toBe(0);
});

test('skin in 365 nm light of 200 W/m2 is at its limit of the day after some 22 min', () => {
  // 30 J/m2 over 200 W/m2 times S(365) = 1.1e-4, as the ICNIRP table has it (from memory).
  const timeS = permissibleSkinTimeS(200, 365);
  expect(timeS / 60).toBeGreaterThan(22);
  expect(timeS / 60).toBeLessThan(24);
});

test('shorter waves burn skin sooner, and twice the light in half the time', () => {
  expect(permissibleSkinTimeS(200, 340)).toBeLessThan(permissibleSkinTimeS(200, 365));
  expect(permissibleSkinTimeS(400, 365)).toBeCloseTo(permissibleSkinTimeS(200, 365) / 2, 9);
});
