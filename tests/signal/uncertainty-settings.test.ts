/** The stated errors of a unit file as parts of one and SI units. */
import { expect, test } from 'vitest';
import UNIT from '../../src/app/defaults/unit.json' with { type: 'json' };
import { uncertaintySchema } from '../../src/signal/uncertainty-settings.ts';

const file = UNIT.uncertainty;
const read = (change: object = {}) =>
  uncertaintySchema.parse({ ...file, irradiance: { ...file.irradiance, ...change } }).irradiance;

test('a certificate’s expanded uncertainty counts half, as one standard uncertainty', () => {
  expect(read({ calibrationK2PercentOfReading: 4 }).calibrationRatio).toBeCloseTo(0.02, 12);
});

test('a certificate without degrees of freedom counts as very many, another by its own', () => {
  const degrees = (calibrationDegreesOfFreedom: number | null) =>
    read({ calibrationDegreesOfFreedom }).calibrationDegrees;
  expect(degrees(null)).toBe(Number.POSITIVE_INFINITY);
  expect(degrees(9)).toBe(9);
});

test('a drift per year counts for all years between two calibrations', () => {
  const { driftRatio } = read({ driftPercentOfReadingPerYear: 1.5, calibratedEveryYears: 2 });
  expect(driftRatio).toBeCloseTo(0.03, 12);
});

test('shares of reading and span are read as parts of one', () => {
  expect(
    read({
      spectrumPercentOfReading: 2,
      placementPercentOfReading: 3,
      temperaturePercentOfReading: 4,
      zeroPercentOfSpan: 0.5,
      linearityPercentOfSpan: 0.25,
    }),
  ).toMatchObject({
    spectrumRatio: 0.02,
    placementRatio: 0.03,
    temperatureRatio: 0.04,
    zeroRatio: 0.005,
    linearityRatio: 0.0025,
    mismatchRatio: 0,
  });
});

test('a thermistor’s power per kelvin is read in watts, its series resistor as a part of one', () => {
  const { thermistor } = uncertaintySchema.parse({
    ...file,
    thermistor: { ...file.thermistor, seriesOhmPercentOfReading: 0.5, dissipationMWPerK: 2 },
  });
  expect(thermistor).toMatchObject({ seriesRatio: 0.005, dissipationWPerK: 0.002 });
});
