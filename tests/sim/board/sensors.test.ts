import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { NO_LIGHT_ERRORS } from '../../../sim/board/light-errors.ts';
import {
  drawTolerance,
  PERFECT,
  type Physical,
  sampleCounts,
  sensorRatios,
  type Tolerance,
  thermistorOhm,
} from '../../../sim/board/sensors.ts';
import { createChance } from '../../../sim/random.ts';
import { CHANNELS, FULL_SCALE_COUNTS } from '../../../src/core/frame.ts';
import { HEALTHY_TRUTH } from '../../frames.ts';

const EXACT = PERFECT;
const TRUTH: Physical = {
  ...HEALTHY_TRUTH,
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
        const counts = sampleCounts({ ...TRUTH, ...truth }, EXACT, createChance(seed, 'noise'));
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
  test('is within 0.2 % of span for pressure, for every seed', () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const tolerance = drawTolerance(createChance(seed, 'tolerance'), NO_LIGHT_ERRORS);
        expect(Math.abs(tolerance.pressureOffsetPa)).toBeLessThanOrEqual(800);
      }),
    );
  });

  test('differs from unit to unit and shows in what is sampled', () => {
    const offsets = [1, 2, 3, 4].map(
      (seed) => drawTolerance(createChance(seed, 'tolerance'), NO_LIGHT_ERRORS).pressureOffsetPa,
    );
    expect(new Set(offsets).size).toBe(4);
    const shifted = sensorRatios(TRUTH, {
      ...PERFECT,
      pressureOffsetPa: 800,
      irradianceGain: 1.015,
    });
    expect(shifted.pressure - ratios({}).pressure).toBeCloseTo(0.8 * 0.002, 12);
    expect((shifted.irradiance - 0.1) / (ratios({}).irradiance - 0.1)).toBeCloseTo(1.015, 12);
  });
});

describe('errors of a fitted sensor', () => {
  const off = (errors: Partial<Tolerance>, changes: Partial<Physical> = {}) => {
    const truth = { ...TRUTH, ...changes };
    const [real, ideal] = [
      sensorRatios(truth, { ...EXACT, ...errors }),
      sensorRatios(truth, EXACT),
    ];
    const percent = (channel: 'pressure' | 'irradiance') =>
      (100 * (real[channel] - ideal[channel])) / 0.8;
    return { real, pressure: percent('pressure'), irradiance: percent('irradiance') };
  };

  test('the pressure signal’s slope, drift in time and drift with temperature add up', () => {
    expect(off({ pressureSpanError: 0.001 }).pressure).toBeCloseTo(0.025, 9);
    expect(off({ pressureSpanError: 0.001 }, { pressurePa: 0 }).pressure).toBeCloseTo(0, 9);
    const drift = { pressureDriftPaPerHour: 400, pressureDriftPaPerK: 40 };
    expect(off(drift).pressure).toBeCloseTo(0, 9);
    expect(off(drift, { sinceZeroS: 1800 }).pressure).toBeCloseTo(0.05, 9);
    expect(off(drift, { sensorK: 288.15 }).pressure).toBeCloseTo(-0.1, 9);
  });

  test('a cable’s drop lifts the low end, leaves the middle and lowers the high end', () => {
    // 5 mV of 5 V in each conductor.
    const drop = { cableDropV: 0.005 };
    expect(off(drop, { pressurePa: 0 }).pressure).toBeCloseTo(0.1, 9);
    expect(off(drop, { pressurePa: 200_000 }).pressure).toBeCloseTo(0, 9);
    expect(off(drop, { pressurePa: 400_000 }).pressure).toBeCloseTo(-0.1, 9);
    expect(off(drop, { irradianceWPerM2: 0 }).irradiance).toBeCloseTo(0.1, 9);
  });

  test('a tilted radiometer loses the cosine, another lamp’s light its mismatch, and dark stays', () => {
    const tilt = { irradianceSeat: Math.cos(Math.PI / 3) };
    expect(off(tilt, { irradianceWPerM2: 200 }).irradiance).toBeCloseTo(-25, 9);
    expect(
      off({ irradianceSpectralRatio: 0.98 }, { irradianceWPerM2: 200 }).irradiance,
    ).toBeCloseTo(-1, 9);
    const dark = { irradianceDarkWPerM2: 2, irradianceGain: 2 };
    expect(off(dark, { irradianceWPerM2: 0 }).irradiance).toBeCloseTo(0.5, 9);
  });

  /** Temperature that a divider’s ratio would mean if nothing were wrong with it. */
  const seenK = (ratio: number) => {
    const ln = Math.log((10_000 * ratio) / (1 - ratio));
    return 1 / (1.129148e-3 + 2.34125e-4 * ln + 8.76741e-8 * ln ** 3);
  };

  test('a thermistor warms itself by its power over its dissipation constant', () => {
    // 2.5 V across 10 kΩ: 0.625 mW into 1 mW/K.
    const { real } = off({ dissipationWPerK: 0.001 }, { glassK: 298.15 });
    expect(seenK(real.glassTemperature)).toBeCloseTo(298.15 + 0.625, 3);
  });

  test('whatever it warms itself to, it is in balance with what it gives away', () => {
    fc.assert(
      fc.property(between(253, 373), between(0.0005, 0.02), (glassK, dissipationWPerK) => {
        const ratio = off({ dissipationWPerK }, { glassK }).real.glassTemperature;
        const ohm = (10_000 * ratio) / (1 - ratio);
        const powerW = (5 / (ohm + 10_000)) ** 2 * ohm;
        // The least dissipation leaves 0.055 of an error each round, of 1.25 K: 0.004 K after two.
        expect(Math.abs(seenK(ratio) - glassK - powerW / dissipationWPerK)).toBeLessThan(0.004);
      }),
    );
  });

  test('a long cable makes a thermistor look colder, a high series resistor warmer', () => {
    const at = { glassK: 298.15 };
    const { a, b, c } = { a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8 };
    const ln = Math.log(10_000);
    // dT/dR = -T^2 (b + 3 c ln^2 R) / R
    const kPerOhm = (298.15 ** 2 * (b + 3 * c * ln * ln)) / 10_000;
    expect(a + b * ln + c * ln ** 3).toBeCloseTo(1 / 298.15, 8);
    const cable = off({ thermistorLeadOhm: 10 }, at).real.glassTemperature;
    expect(seenK(cable) - 298.15).toBeCloseTo(-10 * kPerOhm, 3);
    const series = off({ seriesOhmError: 0.001 }, at).real.glassTemperature;
    expect(seenK(series) - 298.15).toBeCloseTo(10 * kPerOhm, 3);
  });

  test('the divider of the supply is off by what its resistors are off', () => {
    expect(off({ supplyDividerError: 0.01 }).real.supplyVoltage).toBeCloseTo(
      (1.01 * 12.6) / 20,
      12,
    );
  });
});

describe('all errors of a unit together', () => {
  test('stay within 0.2 % of span for pressure and 0.2 K for the glass', () => {
    const place = fc.record({
      seed: fc.integer(),
      pressurePa: between(0, 400_000),
      sensorK: between(278.15, 318.15),
      sinceZeroS: between(0, 3600),
    });
    fc.assert(
      fc.property(place, ({ seed, ...changes }) => {
        const truth = { ...TRUTH, ...changes, irradianceWPerM2: 200 };
        const real = sensorRatios(
          truth,
          drawTolerance(createChance(seed, 'tolerance'), NO_LIGHT_ERRORS),
        );
        const ideal = sensorRatios(truth, EXACT);
        expect(Math.abs(real.pressure - ideal.pressure) / 0.8).toBeLessThan(0.002);
        const kelvin = (ratio: number) => 298.15 - 90 * (ratio - 0.5);
        const glass = kelvin(real.glassTemperature) - kelvin(ideal.glassTemperature);
        expect(Math.abs(glass)).toBeLessThan(0.2);
        expect(Math.abs(real.supplyVoltage / ideal.supplyVoltage - 1)).toBeLessThanOrEqual(0.00501);
      }),
      { numRuns: 300 },
    );
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
