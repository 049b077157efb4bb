/**
 * The known errors of this unit's own sensors, as stated in the unit file: data-sheet limits and
 * calibration, in trade units. Limits are half-widths of a rectangular distribution unless the name
 * says otherwise. The channel budgets combine them.
 */
import { z } from 'zod';
import { quantity, wholeNumber } from '../core/settings.ts';

const percentOfSpan = (max: number) => quantity(0, max, '% of span');
const percentOfReading = (max: number) => quantity(0, max, '% of reading');
const years = quantity(0.1, 5, 'years');

const acceptance = z
  .strictObject({
    /** Required one-sided confidence that a target is met. */
    coveragePercent: quantity(80, 99.9, '%'),
  })
  .transform(({ coveragePercent }) => ({ coverage: coveragePercent / 100 }));

const converter = z
  .strictObject({
    /**
     * Standard deviation of single readings of a steady signal, and the number of readings behind
     * it.
     */
    noiseCounts: quantity(0, 20, 'counts'),
    noiseReadings: wholeNumber(2, 100_000, 'readings'),
    /** Deviation of the converter's curve from a straight line, all its errors together. */
    linearityCounts: quantity(0, 20, 'counts'),
    /** How far the board's clock may run fast or slow. */
    clockPercentOfReading: percentOfReading(5),
  })
  .transform(({ clockPercentOfReading, ...counts }) => ({
    ...counts,
    clockRatio: clockPercentOfReading / 100,
  }));

const pressure = z
  .strictObject({
    offsetPercentOfSpan: percentOfSpan(5),
    /** Error of the slope, proportional to the reading. */
    slopePercentOfReading: percentOfReading(5),
    /** Non-linearity and hysteresis together. */
    linearityPercentOfSpan: percentOfSpan(5),
    temperaturePercentOfSpanPerK: quantity(0, 0.5, '% of span per K'),
    /** Range around the calibration temperature in which the sensor is used. */
    usedWithinK: quantity(0, 60, 'K'),
    driftPercentOfSpanPerYear: quantity(0, 5, '% of span per year'),
    calibratedEveryYears: years,
  })
  .transform((file) => ({
    offsetRatio: file.offsetPercentOfSpan / 100,
    slopeRatio: file.slopePercentOfReading / 100,
    linearityRatio: file.linearityPercentOfSpan / 100,
    temperatureRatio: (file.temperaturePercentOfSpanPerK / 100) * file.usedWithinK,
    driftRatio: (file.driftPercentOfSpanPerYear / 100) * file.calibratedEveryYears,
  }));

const thermistor = z
  .strictObject({
    /** Largest difference between two thermistors of the type. */
    interchangeabilityK: quantity(0, 5, 'K'),
    /** Residual error of the equation between the points that fix its coefficients. */
    equationK: quantity(0, 1, 'K'),
    seriesOhmPercentOfReading: percentOfReading(10),
    leadOhm: quantity(0, 100, 'ohm'),
    excitationV: quantity(0.1, 12, 'V'),
    /** Power that warms the thermistor by 1 K where it is mounted. */
    dissipationMWPerK: quantity(0.1, 100, 'mW/K'),
    /** Largest difference between the sensor and the glass on which it is pressed. */
    contactK: quantity(0, 10, 'K'),
  })
  .transform(({ seriesOhmPercentOfReading, dissipationMWPerK, ...rest }) => ({
    ...rest,
    seriesRatio: seriesOhmPercentOfReading / 100,
    dissipationWPerK: dissipationMWPerK / 1000,
  }));

const irradiance = z
  .strictObject({
    /** Expanded uncertainty of the calibration, k = 2, as a certificate states it. */
    calibrationK2PercentOfReading: percentOfReading(30),
    /**
     * Degrees of freedom of that certificate; null where it states none, which counts as very many.
     */
    calibrationDegreesOfFreedom: quantity(1, 10_000, 'degrees of freedom').nullable(),
    /** The lamp's spectrum differs from the band that the calibration means, at the same peak. */
    spectrumPercentOfReading: percentOfReading(20),
    /** Angle of the light on the sensor, and its seat beside the lamp. */
    placementPercentOfReading: percentOfReading(20),
    temperaturePercentOfReading: percentOfReading(10),
    driftPercentOfReadingPerYear: quantity(0, 20, '% of reading per year'),
    calibratedEveryYears: years,
    zeroPercentOfSpan: percentOfSpan(5),
    linearityPercentOfSpan: percentOfSpan(5),
  })
  .transform((file) => ({
    calibrationRatio: file.calibrationK2PercentOfReading / 100 / 2,
    calibrationDegrees: file.calibrationDegreesOfFreedom ?? Number.POSITIVE_INFINITY,
    spectrumRatio: file.spectrumPercentOfReading / 100,
    /** What lamp and calibration of different wavelengths make of it; the unit file sets it. */
    mismatchRatio: 0,
    placementRatio: file.placementPercentOfReading / 100,
    temperatureRatio: file.temperaturePercentOfReading / 100,
    driftRatio: (file.driftPercentOfReadingPerYear / 100) * file.calibratedEveryYears,
    zeroRatio: file.zeroPercentOfSpan / 100,
    linearityRatio: file.linearityPercentOfSpan / 100,
  }));

export const uncertaintySchema = z.strictObject({
  acceptance,
  converter,
  pressure,
  thermistor,
  irradiance,
});
export type UncertaintySettings = z.infer<typeof uncertaintySchema>;
