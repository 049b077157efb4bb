import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createChance } from '../../sim/random.ts';
import {
  drawTolerance,
  type Physical,
  sampleCounts,
  sensorRatios,
  type Tolerance,
  thermistorOhm,
} from '../../sim/sensors.ts';
import { CHANNELS, FULL_SCALE_COUNTS } from '../../src/frame.ts';

const EXACT: Tolerance = { pressureOffsetPa: 0, irradianceGain: 1 };
const TRUTH: Physical = {
  pressurePa: 100_000,
  irradianceWPerM2: 180,
  glassK: 296.15,
  heatSinkK: 310,
  supplyV: 12.6,
};
const ratios = (changes: Partial<Physical>) => sensorRatios({ ...TRUTH, ...changes }, EXACT);
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('transfer functions, turned back by their definitions', () => {
  test('pressure is 0.5 to 4.5 V of 5 V for 0 to 400 kPa absolute', () => {
    expect(ratios({ pressurePa: 0 }).pressure).toBeCloseTo(0.1, 12);
    expect(ratios({ pressurePa: 400_000 }).pressure).toBeCloseTo(0.9, 12);
    expect(ratios({ pressurePa: 100_000 }).pressure).toBeCloseTo(0.3, 12);
  });

  test('irradiance is 0.5 to 4.5 V of 5 V for 0 to 400 W/m²', () => {
    expect(ratios({ irradianceWPerM2: 0 }).irradiance).toBeCloseTo(0.1, 12);
    expect(ratios({ irradianceWPerM2: 400 }).irradiance).toBeCloseTo(0.9, 12);
  });

  test('the supply is divided by four', () => {
    expect(5 * ratios({ supplyV: 12 }).supplyVoltage).toBeCloseTo(12 / 4, 12);
  });

  test('a thermistor halves its divider at 25 °C, where it has 10 kΩ', () => {
    // The coefficients give 10 kΩ at 25.000 °C to their seven digits.
    expect(thermistorOhm(298.15) / 10_000).toBeCloseTo(1, 4);
    expect(ratios({ glassK: 298.15 }).glassTemperature).toBeCloseTo(0.5, 4);
  });

  test('a thermistor’s resistance put into the Steinhart-Hart equation gives its temperature', () => {
    fc.assert(
      fc.property(between(233, 423), (kelvin) => {
        const ln = Math.log(thermistorOhm(kelvin));
        const back = 1 / (1.129148e-3 + 2.34125e-4 * ln + 8.76741e-8 * ln ** 3);
        expect(back).toBeCloseTo(kelvin, 6);
      }),
    );
  });

  test('a warmer thermistor on the low side gives fewer counts', () => {
    fc.assert(
      fc.property(between(240, 380), between(0.5, 20), (kelvin, warmerK) => {
        const [cool, warm] = [ratios({ glassK: kelvin }), ratios({ glassK: kelvin + warmerK })];
        expect(warm.glassTemperature).toBeLessThan(cool.glassTemperature);
      }),
    );
  });
});

describe('the converter', () => {
  const still = { uniform: () => 0.5, gaussian: () => 0 };

  test('without noise is within half a count of the exact ratio', () => {
    fc.assert(
      fc.property(between(0, 450_000), between(0, 450), (pressurePa, irradianceWPerM2) => {
        const truth = { ...TRUTH, pressurePa, irradianceWPerM2 };
        const counts = sampleCounts(truth, EXACT, still);
        const exact = sensorRatios(truth, EXACT);
        for (const channel of CHANNELS) {
          const off = counts[channel] - exact[channel] * FULL_SCALE_COUNTS;
          expect(Math.abs(off)).toBeLessThanOrEqual(0.5);
        }
      }),
    );
  });

  test('gives whole counts from 0 to 1023 whatever the truth is', () => {
    const anything = fc.record({
      pressurePa: between(-1e6, 1e7),
      irradianceWPerM2: between(-1e4, 1e5),
      glassK: between(150, 900),
      heatSinkK: between(150, 900),
      supplyV: between(-50, 100),
    });
    fc.assert(
      fc.property(anything, fc.integer(), (truth, seed) => {
        const counts = sampleCounts(truth, EXACT, createChance(seed, 'noise'));
        for (const channel of CHANNELS) {
          expect(Number.isInteger(counts[channel])).toBe(true);
          expect(counts[channel]).toBeGreaterThanOrEqual(0);
          expect(counts[channel]).toBeLessThanOrEqual(FULL_SCALE_COUNTS);
        }
      }),
    );
  });

  test('has a noise of about half a count, and no bias', () => {
    const noise = createChance(7, 'noise');
    const exact = sensorRatios(TRUTH, EXACT).pressure * FULL_SCALE_COUNTS;
    const offs = Array.from({ length: 4000 }, () => {
      return sampleCounts(TRUTH, EXACT, noise).pressure - exact;
    });
    const mean = offs.reduce((sum, off) => sum + off, 0) / offs.length;
    const sd = Math.sqrt(offs.reduce((sum, off) => sum + (off - mean) ** 2, 0) / offs.length);
    // Noise 0.5 and rounding 1/sqrt(12) together: 0.577; four standard errors of 4000 draws.
    expect(Math.abs(mean)).toBeLessThan((4 * 0.577) / Math.sqrt(4000));
    expect(Math.abs(sd - 0.577)).toBeLessThan((4 * 0.577) / Math.sqrt(2 * 4000));
  });
});

describe('the tolerance of a unit’s own sensors', () => {
  test('is within 0.2 % of span for pressure and 1.5 % for irradiance, for every seed', () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const tolerance = drawTolerance(createChance(seed, 'tolerance'));
        expect(Math.abs(tolerance.pressureOffsetPa)).toBeLessThanOrEqual(800);
        expect(Math.abs(tolerance.irradianceGain - 1)).toBeLessThanOrEqual(0.015);
      }),
    );
  });

  test('differs from unit to unit and shows in what is sampled', () => {
    const offsets = [1, 2, 3, 4].map(
      (seed) => drawTolerance(createChance(seed, 'tolerance')).pressureOffsetPa,
    );
    expect(new Set(offsets).size).toBe(4);
    const shifted = sensorRatios(TRUTH, { pressureOffsetPa: 800, irradianceGain: 1.015 });
    expect(shifted.pressure - ratios({}).pressure).toBeCloseTo(0.8 * 0.002, 12);
    expect((shifted.irradiance - 0.1) / (ratios({}).irradiance - 0.1)).toBeCloseTo(1.015, 12);
  });
});

test('chance is the same for the same seed and purpose, and independent between purposes', () => {
  const draws = (seed: number, purpose: 'noise' | 'technician') => {
    const chance = createChance(seed, purpose);
    return Array.from({ length: 5 }, () => chance.uniform());
  };
  expect(draws(3, 'noise')).toEqual(draws(3, 'noise'));
  expect(draws(3, 'noise')).not.toEqual(draws(3, 'technician'));
  expect(draws(3, 'noise')).not.toEqual(draws(4, 'noise'));
});
