/**
 * The arithmetic of calibration: from points (reference value, unit reading) to the channel's
 * figures, their uncertainty, and whether the correction is plausible. A correction beyond its
 * limit is not made: a fault is likelier than drift, and must be looked for first. Limits come from
 * care.json. The guided procedure takes the points; the composition root puts the result into
 * force.
 */
import {
  type CalibrationResult,
  type LineLimits,
  type LineWords,
  lineResult,
  refused,
  settled,
  type TwoPoints,
} from './calibration-result.ts';
import {
  combine,
  degreesOrNull,
  lineUncertainty,
  meanPart,
  pointPart,
  referencePart,
  stepPart,
} from './calibration-uncertainty.ts';
import type {
  CalibrationPoint,
  CalibrationUncertainty,
  GlassAdded,
  IrradianceFull,
  PressureLine,
  ReferenceInstrument,
} from './care-entry.ts';
import { logOhmAtK, reciprocalK, type ThermistorCurve } from './thermistor-curve.ts';

/** As parts of the reading. */
export interface FactorLimits {
  readonly greatestCorrectionRatio: number;
  /** Standard deviation of the ratios of reference to reading. */
  readonly greatestSpreadRatio: number;
  readonly greatestStandardUncertaintyRatio: number;
}

interface Given<Line, Limits> {
  readonly before: Line;
  readonly reference: ReferenceInstrument;
  /** The value of one converter count, in the unit of the channel. */
  readonly unitStep: number;
  readonly limits: Limits;
}

export interface PressureGiven extends Given<PressureLine, LineLimits> {
  readonly points: TwoPoints;
  readonly checks: readonly CalibrationPoint[];
}

/**
 * Offset and slope against a reference gauge, as new end points of the transmitter's straight line.
 */
export function calibratePressure(given: PressureGiven): CalibrationResult<PressureLine> {
  const { points, checks, before, reference, unitStep, limits } = given;
  const [first, second] = points;
  const slope = (second.reference - first.reference) / (second.reading - first.reading);
  const corrected = (pa: number): number => first.reference + slope * (pa - first.reading);
  const after = { zeroPa: corrected(before.zeroPa), fullPa: corrected(before.fullPa) };
  const uncertainty = lineUncertainty(points, reference, unitStep, before.zeroPa);
  return lineResult(
    { points, checks, before, after, corrected, uncertainty, limits },
    PRESSURE_WORDS,
  );
}

export interface IrradianceGiven extends Given<IrradianceFull, FactorLimits> {
  /** One or several comparisons, with the instruments lifted and set again between them. */
  readonly points: readonly [CalibrationPoint, ...CalibrationPoint[]];
}

/** One factor against a reference radiometer: the mean of the ratios. */
export function calibrateIrradiance(given: IrradianceGiven): CalibrationResult<IrradianceFull> {
  const { points, before, limits } = given;
  const ratios = points.map(({ reference, reading }) => reference / reading);
  const factor = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
  const squares = ratios.reduce((sum, ratio) => sum + (ratio - factor) ** 2, 0);
  const spread = ratios.length < 2 ? 0 : Math.sqrt(squares / (ratios.length - 1)) / factor;
  const uncertainty = factorUncertainty(given, spread);
  const refusals = refused([
    [
      points.every(({ reference, reading }) => reference > 0 && reading > 0),
      'No light was measured. Check the lamp, its drive and the position of both sensors first.',
    ],
    [
      Math.abs(factor - 1) <= limits.greatestCorrectionRatio,
      `The correction is ${percent(factor - 1)}; at most ${percent(limits.greatestCorrectionRatio)} is accepted. Look for a dirty window, a tilted or misplaced sensor, or a radiometer for another wavelength first.`,
    ],
    [
      spread <= limits.greatestSpreadRatio,
      `Comparisons differ by ${percent(spread)} (standard deviation); at most ${percent(limits.greatestSpreadRatio)} is accepted. Let the lamp settle and place the radiometer the same way each time.`,
    ],
    [
      uncertainty.standard <= limits.greatestStandardUncertaintyRatio,
      `The standard uncertainty is ${percent(uncertainty.standard)}; at most ${percent(limits.greatestStandardUncertaintyRatio)} is accepted. Use a better reference or more comparisons.`,
    ],
  ]);
  return {
    after: refusals.length === 0 ? { fullWPerM2: before.fullWPerM2 * factor } : before,
    corrections: points.map(({ reading }) => reading * (factor - 1)),
    residuals: [],
    uncertainty: settled(uncertainty),
    passed: refusals.length === 0,
    refusals,
  };
}

/** As parts of the reading. With several comparisons their spread covers poor repeatability. */
function factorUncertainty(
  { points, reference, unitStep }: IrradianceGiven,
  spread: number,
): CalibrationUncertainty {
  const [first] = points;
  const least = Math.min(...points.map(({ reading }) => reading));
  const repeat =
    points.length > 1
      ? [meanPart(spread, points.length), stepPart(reference.resolution / least)]
      : [scaled(pointPart(first, reference, 0), 1 / first.reading)];
  const parts = [referencePart(reference), ...repeat, stepPart(unitStep / least)];
  const { standard, degreesOfFreedom } = combine(parts);
  return {
    standard,
    degreesOfFreedom: degreesOrNull(degreesOfFreedom),
    offsetStandard: null,
    slopeStandard: null,
  };
}

const scaled = <P extends { readonly standard: number }>(part: P, by: number): P => ({
  ...part,
  standard: part.standard * by,
});

export interface TemperatureGiven extends Given<GlassAdded, LineLimits> {
  /** The ice point and a warmer one. */
  readonly points: TwoPoints;
  readonly checks: readonly CalibrationPoint[];
  /** Curve of the thermistor's type, without the calibration's addition. */
  readonly curve: ThermistorCurve;
}

/**
 * Fits the coefficients a and b of the Steinhart-Hart curve through both points and keeps c.
 * Sensors of one type differ in resistance and in its dependence on temperature. Both effects are
 * linear in ln R, so that the fit holds between and beyond the points, where a straight line in
 * kelvin would diverge.
 */
export function calibrateTemperature(given: TemperatureGiven): CalibrationResult<GlassAdded> {
  const { points, checks, before, curve, reference, unitStep, limits } = given;
  const was = added(curve, before);
  const [first, second] = points.map((point) => {
    const log = logOhmAtK(point.reading, was);
    return { log, straight: 1 / point.reference - curve.c * log ** 3 };
  }) as [LogPoint, LogPoint];
  const b = (second.straight - first.straight) / (second.log - first.log);
  const a = first.straight - b * first.log;
  const after = { aAdded: a - curve.a, bAdded: b - curve.b };
  const corrected = (k: number): number => 1 / reciprocalK(logOhmAtK(k, was), { a, b, c: curve.c });
  const uncertainty = lineUncertainty(points, reference, unitStep, points[0].reading);
  return lineResult(
    { points, checks, before, after, corrected, uncertainty, limits },
    TEMPERATURE_WORDS,
  );
}

interface LogPoint {
  readonly log: number;
  /** The required value of a + b ln R. */
  readonly straight: number;
}

const added = (curve: ThermistorCurve, { aAdded, bAdded }: GlassAdded): ThermistorCurve => ({
  a: curve.a + aAdded,
  b: curve.b + bAdded,
  c: curve.c,
});

const PRESSURE_WORDS: LineWords = {
  amount: (pa) => `${(pa / 1000).toFixed(2)} kPa`,
  lookFor:
    'Look for a leak between gauge and sensor, a gauge that shows gauge pressure instead of absolute, or water in the hose first.',
};
const TEMPERATURE_WORDS: LineWords = {
  amount: (k) => `${k.toFixed(2)} K`,
  lookFor:
    'Look for too little ice, a sensor without contact, a wet connector or a wrong reference first.',
};

const percent = (ratio: number): string => `${(ratio * 100).toFixed(1)} %`;
