import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  calibrateIrradiance,
  calibratePressure,
  calibrateTemperature,
} from '../../src/care/calibration.ts';
import type { CalibrationPoint, ReferenceInstrument } from '../../src/care/care-entry.ts';
import { logOhmAtK, reciprocalK } from '../../src/care/thermistor-curve.ts';
import { budgetOf, repeated, within } from '../../src/signal/budget.ts';
import { steinhartHartK } from '../../src/signal/channels.ts';
import { logOhmAt } from '../../src/signal/temperature-budget.ts';
import { CARE } from './records.ts';

const point = (reference: number, reading: number, deviation = 0): CalibrationPoint => ({
  reference,
  reading,
  readings: 25,
  readingDeviation: deviation,
});

const gauge: ReferenceInstrument = {
  name: 'demo gauge',
  certificate: 'demo-1',
  expandedUncertainty: 200,
  coverageFactor: 2,
  resolution: 10,
};

const before = { zeroPa: 0, fullPa: 400_000 };
const ofPressure = { checks: [], before, reference: gauge, unitStep: 490 };
const { limits } = CARE.calibration.pressure;
const pressure = (first: CalibrationPoint, second: CalibrationPoint, given = {}) =>
  calibratePressure({ ...ofPressure, limits, points: [first, second], ...given });

describe('pressure', () => {
  test('a worked example: 2 kPa too low and 1 % too steep', () => {
    // reading = (true - 2000) / 0.99
    const result = pressure(point(101_000, 100_000), point(41_600, 40_000));
    expect(result.passed).toBe(true);
    expect(result.after.zeroPa).toBeCloseTo(2_000, 6);
    expect(result.after.fullPa).toBeCloseTo(2_000 + 0.99 * 400_000, 6);
    expect(result.corrections).toEqual([1_000, 1_600]);
  });

  test('both points read exactly as the reference after it', () => {
    const kPa = fc.double({ min: -4_000, max: 4_000, noNaN: true });
    fc.assert(
      fc.property(kPa, kPa, (air, vacuum) => {
        const points = [point(100_000 + air, 100_000), point(40_000 + vacuum, 40_000)] as const;
        const { after, passed } = pressure(...points);
        expect(passed).toBe(true);
        for (const { reference, reading } of points) {
          const share = (reading - before.zeroPa) / (before.fullPa - before.zeroPa);
          expect(after.zeroPa + share * (after.fullPa - after.zeroPa)).toBeCloseTo(reference, 6);
        }
      }),
    );
  });

  test('a correction is made up to its limit and refused beyond it, with what to look for', () => {
    const most = limits.greatestCorrection;
    expect(pressure(point(100_000 + most, 100_000), point(40_000, 40_000)).passed).toBe(true);
    const over = pressure(point(100_000 + most + 1, 100_000), point(40_000, 40_000));
    expect(over.passed).toBe(false);
    expect(over.refusals.join()).toContain('Look for a leak between gauge and sensor');
    expect(over.after).toEqual(before);
  });

  test('points too close together settle nothing', () => {
    const least = limits.leastApart;
    expect(pressure(point(100_000, 100_000), point(100_000 - least, 100_000 - least)).passed).toBe(
      true,
    );
    expect(
      pressure(point(100_000, 100_000), point(100_001 - least, 100_001 - least)).refusals,
    ).toHaveLength(1);
    expect(pressure(point(100_000, 100_000), point(100_000, 100_000))).toMatchObject({
      passed: false,
      uncertainty: null,
      after: before,
    });
  });

  test('a check point that is still off after the correction refuses it', () => {
    const off = (pa: number) =>
      pressure(point(100_000, 100_000), point(40_000, 40_000), {
        checks: [point(200_000 + pa, 200_000)],
      });
    expect(off(limits.greatestResidual)).toMatchObject({ passed: true });
    expect(off(limits.greatestResidual + 1)).toMatchObject({ passed: false });
    expect(off(500).residuals[0]).toBeCloseTo(-500, 6);
  });

  test('its uncertainty is the sum that the channel budgets would make', () => {
    const { uncertainty } = pressure(point(100_000, 100_000, 300), point(40_000, 40_000, 100));
    const row = { name: '', value: 0, unit: 'Pa', sensitivity: 1 };
    const expected = budgetOf([
      { ...within({ ...row, name: 'gauge', spread: 100 }), distribution: 'normal' },
      repeated({ ...row, name: 'mean', spread: 300 / 5 }, 25),
      within({ ...row, name: 'digit of the gauge', spread: 5 }),
      within({ ...row, name: 'count', spread: 245 }),
    ]);
    expect(uncertainty?.standard).toBeCloseTo(expected.standard, 9);
    expect(uncertainty?.degreesOfFreedom).toBeCloseTo(expected.degreesOfFreedom, 3);
  });

  test('too great an uncertainty does not pass', () => {
    const poor = { ...gauge, expandedUncertainty: 2 * limits.greatestStandardUncertainty };
    const result = pressure(point(100_000, 100_000), point(40_000, 40_000), { reference: poor });
    expect(result.passed).toBe(false);
    expect(result.refusals.join()).toContain('Use a better reference');
  });
});

describe('what was drawn at random many times', () => {
  /** Seeded, so that the same numbers come every time; Box and Muller. */
  const normals = (seed: number) => {
    let state = seed;
    const uniform = () => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      return (state + 0.5) / 2 ** 32;
    };
    return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  };

  test('scatters as offset and slope say', () => {
    const draw = normals(7);
    const [common, own] = [100, 300];
    const ends = Array.from({ length: 20_000 }, () => {
      const shift = common * draw();
      const at = (pa: number) => point(pa + shift, pa + own * draw());
      const { after } = calibratePressure({
        ...ofPressure,
        points: [at(100_000), at(40_000)],
        limits: { ...limits, greatestCorrection: 1e6, greatestStandardUncertainty: 1e6 },
      });
      return { zero: after.zeroPa, slope: (after.fullPa - after.zeroPa) / 400_000 };
    });
    const deviation = (values: readonly number[]) => {
      const mean = values.reduce((a, b) => a + b) / values.length;
      return Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (values.length - 1));
    };
    const stated = pressure(point(100_000, 100_000, own * 5), point(40_000, 40_000, own * 5), {
      reference: { ...gauge, expandedUncertainty: 2 * common, resolution: 0 },
      unitStep: 0,
      limits: { ...limits, greatestStandardUncertainty: 1e6 },
    }).uncertainty;
    // A standard deviation from 20000 draws is known to half a per cent; four of these.
    const near = (value: number) => ({ from: value * 0.98, to: value * 1.02 });
    const offset = near(stated?.offsetStandard ?? 0);
    const slope = near(stated?.slopeStandard ?? 0);
    expect(deviation(ends.map((end) => end.zero))).toBeGreaterThan(offset.from);
    expect(deviation(ends.map((end) => end.zero))).toBeLessThan(offset.to);
    expect(deviation(ends.map((end) => end.slope))).toBeGreaterThan(slope.from);
    expect(deviation(ends.map((end) => end.slope))).toBeLessThan(slope.to);
  });
});

describe('irradiance', () => {
  const light = CARE.calibration.irradiance.limits;
  const radiometer = { ...gauge, expandedUncertainty: 0.04, resolution: 0.1 };
  const calibrate = (...points: readonly [CalibrationPoint, ...CalibrationPoint[]]) =>
    calibrateIrradiance({
      points,
      before: { fullWPerM2: 400 },
      reference: radiometer,
      unitStep: 0.5,
      limits: light,
    });

  test('a worked example: three comparisons, their mean ratio and its scatter', () => {
    const { after, uncertainty, passed } = calibrate(
      point(210, 200),
      point(212, 200),
      point(214, 200),
    );
    expect(passed).toBe(true);
    expect(after.fullWPerM2).toBeCloseTo(400 * 1.06, 9);
    const spread = 0.01 / 1.06;
    const parts = [
      0.02,
      spread / Math.sqrt(3),
      0.1 / 200 / Math.sqrt(12),
      0.5 / 200 / Math.sqrt(12),
    ];
    expect(uncertainty?.standard).toBeCloseTo(Math.hypot(...parts), 12);
    expect(uncertainty?.degreesOfFreedom).toBeCloseTo(
      2 * (Math.hypot(...parts) / (spread / Math.sqrt(3))) ** 4,
      6,
    );
  });

  test('a factor is set up to its limit and refused beyond it', () => {
    const most = 200 * (1 + light.greatestCorrectionRatio);
    expect(calibrate(point(most - 0.001, 200)).passed).toBe(true);
    const over = calibrate(point(most + 0.001, 200));
    expect(over.refusals.join()).toContain('dirty window');
    expect(over.after.fullWPerM2).toBe(400);
  });

  test('comparisons that scatter too much are refused', () => {
    const apart = (d: number) => calibrate(point(200 - d, 200), point(200 + d, 200));
    const most = (200 * light.greatestSpreadRatio) / Math.sqrt(2);
    expect(apart(most * 0.999).passed).toBe(true);
    expect(apart(most * 1.001).refusals.join()).toContain('Comparisons differ');
  });

  test('no light calibrates nothing', () => {
    expect(calibrate(point(0, 0))).toMatchObject({ passed: false, uncertainty: null });
    expect(calibrate(point(0, 0)).refusals.join()).toContain('No light was measured');
  });
});

describe('temperature', () => {
  const curve = { a: 0.001129148, b: 0.000234125, c: 8.76741e-8 };
  const thermometer = { ...gauge, expandedUncertainty: 0.1, resolution: 0.01 };
  const calibrate = (first: CalibrationPoint, second: CalibrationPoint) =>
    calibrateTemperature({
      points: [first, second],
      checks: [],
      before: { aAdded: 0, bAdded: 0 },
      curve,
      reference: thermometer,
      unitStep: 0.1,
      limits: CARE.calibration.temperature.limits,
    });
  const afterwards = ({ aAdded, bAdded }: { aAdded: number; bAdded: number }) => ({
    a: curve.a + aAdded,
    b: curve.b + bAdded,
    c: curve.c,
  });

  test("its curve and inverse are the controller's own", () => {
    for (let k = 260; k <= 340; k += 5) {
      const log = logOhmAtK(k, curve);
      expect(log).toBeCloseTo(logOhmAt(k, { ...curve, seriesOhm: 10_000 }), 10);
      expect(1 / reciprocalK(log, curve)).toBeCloseTo(steinhartHartK(Math.exp(log), curve), 10);
    }
  });

  test('a thermistor with another resistance and another dependence is found right everywhere', () => {
    // Errors of the part: R 1.5 % high, and ln R 0.4 % less dependent on temperature.
    const logAt25 = logOhmAtK(298.15, curve);
    const logOf = (k: number) => logAt25 + 0.015 + 0.996 * (logOhmAtK(k, curve) - logAt25);
    const readingAt = (k: number) => 1 / reciprocalK(logOf(k), curve);
    const { after, passed } = calibrate(
      point(273.15, readingAt(273.15)),
      point(313.15, readingAt(313.15)),
    );
    expect(passed).toBe(true);
    const readsNow = (k: number) => 1 / reciprocalK(logOf(k), afterwards(after));
    for (const k of [273.15, 313.15]) expect(readsNow(k)).toBeCloseTo(k, 9);
    // Between the points and well beyond them; before, it was off by half a kelvin.
    for (let k = 263; k <= 333; k += 10) expect(Math.abs(readsNow(k) - k)).toBeLessThan(0.01);
    expect(Math.abs(readingAt(298.15) - 298.15)).toBeGreaterThan(0.3);
  });

  test('a correction is made up to its limit and refused beyond it', () => {
    const { greatestCorrection: most } = CARE.calibration.temperature.limits;
    expect(calibrate(point(273.15, 273.15 + most - 1e-6), point(308, 308)).passed).toBe(true);
    const over = calibrate(point(273.15, 273.15 + most + 1e-6), point(308, 308));
    expect(over.refusals.join()).toContain('too little ice');
    expect(over.after).toEqual({ aAdded: 0, bAdded: 0 });
  });

  test('what a bath alone leaves unknown counts with its point', () => {
    const bath = { ...point(308.15, 308.15), ownStandard: 0.15 };
    const { uncertainty } = calibrate(point(273.15, 273.15), bath);
    const parts = [0.05, 0.15, 0.01 / Math.sqrt(12), 0.1 / Math.sqrt(12)];
    expect(uncertainty?.standard).toBeCloseTo(Math.hypot(...parts), 12);
  });
});
