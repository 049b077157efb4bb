/**
 * What is known of the errors of this unit's own sensors, as the unit file states it: data-sheet
 * limits and calibration, in trade units. Limits are half-widths of a rectangular distribution
 * unless the name says otherwise. What they come to is worked out by the channel budgets.
 */
import { z } from 'zod';
import { quantity, wholeNumber } from '../core/settings.ts';

const percentOfSpan = (max: number) => quantity(0, max, '% of span');
const percentOfReading = (max: number) => quantity(0, max, '% of reading');
const years = quantity(0.1, 5, 'years');

const acceptance = z
  .strictObject({
    /** How sure the unit must be, on one side, that a target is met before it says so. */
    coveragePercent: quantity(80, 99.9, '%'),
  })
  .transform(({ coveragePercent }) => ({ coverage: coveragePercent / 100 }));

const converter = z
  .strictObject({
    /** Standard deviation of single readings of a steady signal, and from how many it was found. */
    noiseCounts: quantity(0, 20, 'counts'),
    noiseReadings: wholeNumber(2, 100_000, 'readings'),
    /** How far the converter's own curve is from straight, all its errors together. */
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
    /** Error of the slope, which grows from nothing at zero. */
    slopePercentOfReading: percentOfReading(5),
    /** Non-linearity and hysteresis together. */
    linearityPercentOfSpan: percentOfSpan(5),
    temperaturePercentOfSpanPerK: quantity(0, 0.5, '% of span per K'),
    /** How far from the temperature of its calibration the sensor is used. */
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
    /** How far two thermistors of the type may differ. */
    interchangeabilityK: quantity(0, 5, 'K'),
    /** What the equation leaves over between the points that fix its coefficients. */
    equationK: quantity(0, 1, 'K'),
    seriesOhmPercentOfReading: percentOfReading(10),
    leadOhm: quantity(0, 100, 'ohm'),
    excitationV: quantity(0.1, 12, 'V'),
    /** Power that warms the thermistor by 1 K where it sits. */
    dissipationMWPerK: quantity(0.1, 100, 'mW/K'),
    /** How far the sensor may be from the glass that it is pressed on. */
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
    /** Of that certificate; null where it states none, which is taken as very many. */
    calibrationDegreesOfFreedom: quantity(1, 10_000, 'degrees of freedom').nullable(),
    /** The lamp's spectrum is not that of the calibration. */
    spectrumPercentOfReading: percentOfReading(20),
    /** Angle of the light, and where on the spot the sensor sits. */
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
