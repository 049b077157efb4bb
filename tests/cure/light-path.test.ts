import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import unitFile from '../../src/app/defaults/unit.json' with { type: 'json' };
import { checkSettings, problemLine } from '../../src/core/settings.ts';
import {
  lightPathSchema,
  resinPerSensorRatio,
  spotRatioAt,
  spreadsOf,
} from '../../src/cure/light-path.ts';
import { FILL_PASSES, PIT_PASSES } from '../light-path.ts';

const FILE = unitFile.lightPath;
const PATH = lightPathSchema.parse(FILE);
const share = fc.double({ min: 0.1, max: 1, noNaN: true });
const radiusM = fc.double({ min: 0, max: 0.05, noNaN: true });

const problems = (change: object): readonly string[] => {
  const checked = checkSettings(lightPathSchema, { ...FILE, ...change }, 'u.json');
  return checked.ok ? [] : checked.problems.map(problemLine);
};

describe('the light that reaches the resin', () => {
  test('of the demo break and pit is what film and spot leave of the reading', () => {
    expect(resinPerSensorRatio(PATH, 0.86, 11e-3)).toBeCloseTo(FILL_PASSES, 12);
    expect(resinPerSensorRatio(PATH, 0.86, 1e-3)).toBeCloseTo(PIT_PASSES, 12);
    // 0.86 x 0.9462 and 0.86 x 0.9996.
    expect(FILL_PASSES).toBeCloseTo(0.8138, 4);
    expect(PIT_PASSES).toBeCloseTo(0.8596, 4);
  });

  test('is the film’s share alone where no path is stated, as older journals had it', () => {
    expect(resinPerSensorRatio(null, 0.9, 11e-3)).toBe(0.9);
  });

  test('is all of it on the axis, the stated share at the edge, and no less beyond', () => {
    expect(spotRatioAt(PATH, 0)).toBe(1);
    expect(spotRatioAt(PATH, 15e-3)).toBeCloseTo(0.9, 12);
    expect(spotRatioAt(PATH, 40e-3)).toBeCloseTo(0.9, 12);
  });

  test('never falls with a clearer film and never grows with the distance from the axis', () => {
    fc.assert(
      fc.property(share, share, radiusM, radiusM, (a, b, near, far) => {
        const [dull, clear] = a < b ? [a, b] : [b, a];
        const [inside, outside] = near < far ? [near, far] : [far, near];
        expect(resinPerSensorRatio(PATH, clear, near)).toBeGreaterThanOrEqual(
          resinPerSensorRatio(PATH, dull, near),
        );
        expect(resinPerSensorRatio(PATH, clear, outside)).toBeLessThanOrEqual(
          resinPerSensorRatio(PATH, clear, inside),
        );
      }),
    );
  });
});

describe('what may differ on the way', () => {
  test('is the inverse square for the distance: half a millimetre of 20 mm is 5.2 %', () => {
    const { distanceRatio } = spreadsOf({ ...PATH, lampToGlassWithinM: 0.5e-3 });
    // (20 / 19.5)^2 = 1.05194.
    expect(distanceRatio).toBeCloseTo(0.05194, 5);
    expect(spreadsOf({ ...PATH, lampToGlassWithinM: 0 }).distanceRatio).toBe(0);
  });

  test('counts the edge of the spot against the edge, not against the centre', () => {
    expect(spreadsOf(PATH).spotRatio).toBeCloseTo(2 / 90, 12);
  });
});

describe('a light path is refused', () => {
  test('with the sensor inside the spot, where it would shade the break', () => {
    expect(problems({ sensorFromCentreMm: 15 })).toEqual([
      'u.json: sensorFromCentreMm is 15; accepted: more than half of spotDiameterMm (30)',
    ]);
  });

  test('with a distance that may vary by more than a fifth', () => {
    expect(problems({ lampToGlassWithinMm: 4.1 })).toEqual([
      'u.json: lampToGlassWithinMm is 4.1; accepted: at most a fifth of lampToGlassMm (20)',
    ]);
  });
});
