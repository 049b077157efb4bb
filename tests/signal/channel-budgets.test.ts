import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, test } from 'vitest';
import unitFile from '../../src/app/defaults/unit.json' with { type: 'json' };
import { unitSettingsSchema } from '../../src/control/unit-settings.ts';
import { type Channel, type Frame, FULL_SCALE_COUNTS, SAFE } from '../../src/core/frame.ts';
import type { Budget } from '../../src/signal/budget.ts';
import { INITIAL_SIGNAL_MEMORY, stepDecode } from '../../src/signal/decode.ts';
import { inheritedByDose, irradianceBudget } from '../../src/signal/irradiance-budget.ts';
import { pressureBudget } from '../../src/signal/pressure-budget.ts';
import { logOhmAt, temperatureBudget } from '../../src/signal/temperature-budget.ts';
import type { UncertaintySettings } from '../../src/signal/uncertainty-settings.ts';
import { DEFAULT_UNIT } from '../configs.ts';
import { HEALTHY_FRAME } from '../frames.ts';

const { channels, uncertainty } = DEFAULT_UNIT;

/** What one part adds to a budget. */
const part = ({ parts }: Budget, name: string): number =>
  parts.find((each) => each.name === name)?.standard ?? Number.NaN;

/** The unit's settings with one limit of one sensor changed. */
const having = <K extends keyof UncertaintySettings>(
  section: K,
  change: Partial<UncertaintySettings[K]>,
): UncertaintySettings => ({
  ...uncertainty,
  [section]: { ...uncertainty[section], ...change },
});

describe('the budget of the pressure', () => {
  test('has every part at its data-sheet limit over the root of 3', () => {
    const budget = pressureBudget(200_000, channels, uncertainty);
    const root3 = Math.sqrt(3);
    expect(part(budget, 'offset')).toBeCloseTo((0.002 * 400_000) / root3, 9);
    expect(part(budget, 'slope')).toBeCloseTo((0.002 * 200_000) / root3, 9);
    expect(part(budget, 'linearity and hysteresis')).toBeCloseTo((0.0015 * 400_000) / root3, 9);
    expect(part(budget, 'temperature of the sensor')).toBeCloseTo(
      (0.0001 * 15 * 400_000) / root3,
      9,
    );
    expect(part(budget, 'drift since calibration')).toBeCloseTo((0.001 * 400_000) / root3, 9);
    // 400 kPa over 0.8 of 1023 counts.
    expect(part(budget, 'converter step')).toBeCloseTo((0.5 * 400_000) / 818.4 / root3, 9);
  });

  test('has no slope error at zero and the whole of it at full scale', () => {
    expect(part(pressureBudget(0, channels, uncertainty), 'slope')).toBe(0);
    expect(part(pressureBudget(400_000, channels, uncertainty), 'slope')).toBeCloseTo(461.88, 2);
  });
});

describe('the budget of the temperature', () => {
  test('finds the resistance that reads as the temperature', () => {
    // The thermistor of the demo has 10 kohm at 25 C, by its coefficients to 2 ohm.
    expect(Math.exp(logOhmAt(298.15, channels.thermistor))).toBeCloseTo(10_000, -1);
  });

  test('takes the slope of the curve from the curve', () => {
    const budget = temperatureBudget(298.15, channels, uncertainty);
    // 1 K is 4.4 % of the resistance at 25 C, so 0.1 % of the series resistor is 0.023 K.
    expect(part(budget, 'series resistor')).toBeCloseTo((0.001 / 0.044 / Math.sqrt(3)) * 1, 3);
    // At the middle of the divider 1 count is 4/1023 of the resistance: 0.089 K.
    expect(part(budget, 'converter step')).toBeCloseTo(
      (0.5 * (4 / 1023 / 0.044)) / Math.sqrt(3),
      3,
    );
  });

  test('has a self-heating that goes with the square of the excitation', () => {
    const heating = (excitationV: number) =>
      part(
        temperatureBudget(298.15, channels, having('thermistor', { excitationV })),
        'self-heating',
      );
    // 2.5 V over 10 kohm is 0.625 mW, and 3 mW warm it by 1 K.
    expect(heating(5)).toBeCloseTo(0.625 / 3 / Math.sqrt(3), 4);
    expect(heating(10) / heating(5)).toBeCloseTo(4, 9);
  });
});

describe('the budget of the irradiance', () => {
  test('takes the calibration as expanded with k = 2', () => {
    expect(part(irradianceBudget(200, channels, uncertainty), 'calibration')).toBeCloseTo(4, 9);
  });

  test('has the degrees of freedom of its certificate where that states them', () => {
    const certain = having('irradiance', { calibrationDegrees: 3 });
    expect(inheritedByDose(channels, uncertainty, null).coverageFactor).toBeCloseTo(1.645, 3);
    // (2.754 / 2)^4 x 3 = 10.8 effective degrees of freedom: t of 95 %, one-sided, is 1.799.
    expect(inheritedByDose(channels, certain, null).coverageFactor).toBeCloseTo(1.799, 2);
    expect(irradianceBudget(200, channels, certain).degreesOfFreedom).toBeLessThan(20);
  });

  test('hands a dose its gain with the clock, its zero, and what noise does not smooth', () => {
    const still = inheritedByDose(channels, having('converter', { noiseCounts: 0 }), null);
    const noisy = inheritedByDose(channels, uncertainty, null);
    expect(still.randomWPerM2).toBeCloseTo(0, 3);
    expect(noisy.randomWPerM2).toBeGreaterThan(0.2);
    // Without noise the whole step is left of every average: 0.489 W/m2 a count over root 12.
    expect(Math.sqrt(still.zeroWPerM2 ** 2 - noisy.zeroWPerM2 ** 2)).toBeCloseTo(0.141, 3);
    const noClock = inheritedByDose(channels, having('converter', { clockRatio: 0 }), null);
    expect(Math.sqrt(noisy.gainRatio ** 2 - noClock.gainRatio ** 2)).toBeCloseTo(0.00289, 5);
  });
});

describe('what a dose inherits, by hand from the figures of the demo unit', () => {
  const { gainRatio, zeroWPerM2 } = inheritedByDose(channels, uncertainty, null);
  // 4 % is expanded with k = 2; the others are half-widths: 2.5, 1.5, 1, 1 and 0.5 %.
  const squares = 2 ** 2 + (2.5 ** 2 + 1.5 ** 2 + 1 + 1 + 0.5 ** 2) / 3;

  test('the gain: calibration, spectrum, placement, temperature, drift, clock', () => {
    expect(100 * gainRatio).toBeCloseTo(Math.sqrt(squares), 6);
  });

  test('the way to the resin: film 2 %, edge of the spot 2 of 90 %, and 0.2 of 20 mm', () => {
    // Inverse square: (20 / 19.8)^2 is 2.0304 % more.
    const path = (2 ** 2 + (200 / 90) ** 2 + 2.0304 ** 2) / 3;
    expect(100 * DEFAULT_UNIT.doseUncertaintyTerms.gainRatio).toBeCloseTo(
      Math.sqrt(squares + path),
      4,
    );
  });

  test('a sensor adjusted 5 nm beside the lamp: 0.6 % a nanometre, off the dose as a whole', () => {
    const unit = unitSettingsSchema.parse({ ...unitFile, lamp: { ...unitFile.lamp, peakNm: 370 } });
    const light = irradianceBudget(200, unit.channels, unit.uncertainty);
    expect(part(light, 'adjusted at another wavelength')).toBeCloseTo((0.03 * 200) / 1.7320508, 4);
    const { gainRatio, biasRatio } = unit.doseUncertaintyTerms;
    expect(biasRatio).toBeCloseTo(0.03, 9);
    // It scatters in no cure, so that it belongs to no root of squares.
    expect(gainRatio).toBe(DEFAULT_UNIT.doseUncertaintyTerms.gainRatio);
    expect(DEFAULT_UNIT.doseUncertaintyTerms.biasRatio).toBe(0);
  });

  test('the zero: offset and linearity of 0.1 % of 400 W/m2 each, and one count of the curve', () => {
    const squares = (0.4 ** 2 + 0.4 ** 2 + (400 / 818.4) ** 2) / 3;
    // Noise of half a count leaves less than a hundredth of a step.
    expect(zeroWPerM2).toBeCloseTo(Math.sqrt(squares), 3);
  });
});

describe('first order agrees with draws of every error through the decoder', () => {
  const generator = xoroshiro128plus(11);
  const uniform = (): number => uniformFloat64(generator);
  const limit = (half: number): number => half * (2 * uniform() - 1);
  const normal = (sd: number): number =>
    sd * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const { converter, pressure, irradiance } = uncertainty;

  /** What the decoder makes of three noisy samples of one ratio. */
  function decoded(channel: Channel, ratio: number) {
    const curve = limit(converter.linearityCounts);
    let memory = INITIAL_SIGNAL_MEMORY;
    let reading = null;
    for (let i = 0; i < 3; i++) {
      const exact = ratio * FULL_SCALE_COUNTS + curve + normal(converter.noiseCounts);
      const counts = { ...HEALTHY_FRAME.counts, [channel]: Math.round(exact) };
      const frame: Frame = { ...HEALTHY_FRAME, counts, timeS: i * 0.05, sampledAtS: i * 0.05 };
      ({ memory, reading } = stepDecode(memory, frame, SAFE, channels));
    }
    const read = channel === 'pressure' ? reading?.pressurePa : reading?.irradianceWPerM2;
    return read?.ok ? read.value : Number.NaN;
  }

  const DRAWS = 20_000;
  /** Half a percent is one standard error of a deviation found from so many. */
  const WITHIN = 0.02;

  function spreadOf(draw: () => number): number {
    let [sum, squares] = [0, 0];
    for (let i = 0; i < DRAWS; i++) {
      const value = draw();
      sum += value;
      squares += value * value;
    }
    return Math.sqrt(squares / DRAWS - (sum / DRAWS) ** 2);
  }

  test.each([25_000, 238_000])('for a pressure of %d Pa', (pa) => {
    const spanPa = 400_000;
    const spread = spreadOf(() => {
      const ofSpan =
        limit(pressure.offsetRatio) +
        limit(pressure.linearityRatio) +
        limit(pressure.temperatureRatio) +
        limit(pressure.driftRatio);
      const sensed = pa * (1 + limit(pressure.slopeRatio)) + ofSpan * spanPa;
      return decoded('pressure', 0.1 + (0.8 * sensed) / spanPa);
    });
    const { standard } = pressureBudget(pa, channels, uncertainty);
    expect(Math.abs(spread / standard - 1)).toBeLessThan(WITHIN);
  });

  test('for an irradiance of 195 W/m2', () => {
    const spread = spreadOf(() => {
      const gain =
        (1 + normal(irradiance.calibrationRatio)) *
        (1 + limit(irradiance.spectrumRatio)) *
        (1 + limit(irradiance.placementRatio)) *
        (1 + limit(irradiance.temperatureRatio)) *
        (1 + limit(irradiance.driftRatio));
      const off = limit(irradiance.zeroRatio) + limit(irradiance.linearityRatio);
      return decoded('irradiance', 0.1 + 0.8 * ((195 * gain) / 400 + off));
    });
    const { standard } = irradianceBudget(195, channels, uncertainty);
    expect(Math.abs(spread / standard - 1)).toBeLessThan(WITHIN);
  });
});
