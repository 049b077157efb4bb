import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Curve,
  curveAt,
  DEMO_FILM,
  DEMO_LAMP_BAND,
  DEMO_RADIOMETER,
  gaussianBand,
  lineBand,
  mismatchFactor,
  weightedMean,
} from '../../../../sim/plant/light/spectrum.ts';

const SLOPE: Curve = [
  [300, 0],
  [500, 2],
];
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('a band', () => {
  test('shares out all of its power, half a width from the peak half as high', () => {
    fc.assert(
      fc.property(between(320, 420), between(1, 40), (peakNm, widthNm) => {
        const { nm, weights } = gaussianBand(peakNm, widthNm);
        expect(weights.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
        const middle = weights.indexOf(Math.max(...weights));
        expect(nm[middle]).toBe(peakNm);
        // Points lie a tenth of a width apart; half a width from the peak half is left.
        const fall = (weights[middle + 1] as number) / (weights[middle] as number);
        expect(fall).toBeCloseTo(0.5 ** ((0.1 / 0.5) ** 2), 9);
      }),
    );
  });

  test('sees the value at its peak of any property that is linear across it', () => {
    fc.assert(
      fc.property(between(340, 460), between(1, 15), (peakNm, widthNm) => {
        const mean = weightedMean(gaussianBand(peakNm, widthNm), SLOPE);
        expect(mean).toBeCloseTo((peakNm - 300) / 100, 9);
      }),
    );
  });

  test('averages over a bend: a wide band sees less of a ridge than a narrow one', () => {
    const ridge: Curve = [
      [380, 0],
      [395, 1],
      [410, 0],
    ];
    const seen = (widthNm: number) => weightedMean(gaussianBand(395, widthNm), ridge);
    expect(seen(1)).toBeGreaterThan(0.95);
    expect(seen(12)).toBeLessThan(seen(6));
    // Mean distance from the peak, at most 15 nm: sigma 5.096 nm gives 4.061 nm.
    expect(seen(12)).toBeCloseTo(1 - 4.061 / 15, 2);
  });
});

test('a curve is straight between its points and level outside them', () => {
  expect(curveAt(SLOPE, 400)).toBe(1);
  expect(curveAt(SLOPE, 300)).toBe(0);
  expect(curveAt(SLOPE, 200)).toBe(0);
  expect(curveAt(SLOPE, 600)).toBe(2);
});

describe('spectral mismatch', () => {
  test('is none for the light of the calibration and for an even responsivity', () => {
    fc.assert(
      fc.property(between(360, 420), between(2, 30), (peakNm, widthNm) => {
        const band = gaussianBand(peakNm, widthNm);
        expect(mismatchFactor(DEMO_RADIOMETER, band, band)).toBeCloseTo(1, 12);
        expect(mismatchFactor([[0, 0.7]], band, DEMO_LAMP_BAND)).toBeCloseTo(1, 12);
      }),
    );
  });

  test('corrects upwards what the instrument hardly sees', () => {
    // Calibrated at 400 nm where it gives 1, it gives 0.5 at 350 nm: the truth is twice the reading.
    expect(mismatchFactor(SLOPE, lineBand(350), lineBand(400))).toBeCloseTo(2, 12);
    expect(mismatchFactor(SLOPE, lineBand(400), lineBand(350))).toBeCloseTo(0.5, 12);
  });

  test('counts only what the wanted responsivity counts', () => {
    const wanted: Curve = [
      [349, 0],
      [350, 1],
      [351, 1],
      [399, 1],
      [401, 3],
    ];
    // At 400 nm the instrument gives 1 and should give 2, at 350 nm 0.5 and should give 1.
    expect(mismatchFactor(SLOPE, lineBand(350), lineBand(400), wanted)).toBeCloseTo(1, 12);
  });

  test('of the demo radiometer is 1.0 to 1.6 % for lamps 2.5 nm off, inside the stated 2.5 %', () => {
    for (const peakNm of [362.5, 367.5]) {
      const off = Math.abs(
        mismatchFactor(DEMO_RADIOMETER, gaussianBand(peakNm, 12), DEMO_LAMP_BAND) - 1,
      );
      expect(off).toBeGreaterThan(0.01);
      expect(off).toBeLessThan(0.016);
    }
  });
});

test('the demo film lets 86 % of the lamp’s light through', () => {
  expect(weightedMean(DEMO_LAMP_BAND, DEMO_FILM)).toBeCloseTo(0.86, 3);
});
