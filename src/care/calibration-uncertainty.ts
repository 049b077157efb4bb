/**
 * Uncertainty of a calibration by JCGM 100:2008 (the GUM), clauses 4, 5 and G.4. Errors of the
 * reference instrument are common to all points; repeatability and the resolution of both displays
 * are independent from point to point. calibration.ts decides whether the result is good enough.
 */
import type {
  CalibrationPoint,
  CalibrationUncertainty,
  ReferenceInstrument,
} from './care-entry.ts';

/** A standard uncertainty with its degrees of freedom. */
export interface Part {
  readonly standard: number;
  readonly degreesOfFreedom: number;
}

/** From the width of a step to the standard deviation that it causes: JCGM 100, 4.3.7. */
const STEP_DIVISOR = Math.sqrt(12);

export const referencePart = (reference: ReferenceInstrument): Part => ({
  standard: reference.expandedUncertainty / reference.coverageFactor,
  degreesOfFreedom: Number.POSITIVE_INFINITY,
});

export const stepPart = (step: number): Part => ({
  standard: step / STEP_DIVISOR,
  degreesOfFreedom: Number.POSITIVE_INFINITY,
});

/** Standard uncertainty of a mean of repeated readings: JCGM 100, 4.2.3. */
export const meanPart = (deviation: number, readings: number): Part => ({
  standard: deviation / Math.sqrt(readings),
  degreesOfFreedom: readings - 1,
});

/** Combines independent parts, with effective degrees of freedom by Welch and Satterthwaite. */
export function combine(parts: readonly Part[]): Part {
  const standard = Math.hypot(...parts.map((part) => part.standard));
  const inverseDegrees = parts.reduce(
    (sum, part) =>
      part.standard === 0 ? sum : sum + (part.standard / standard) ** 4 / part.degreesOfFreedom,
    0,
  );
  return {
    standard,
    degreesOfFreedom: inverseDegrees > 0 ? 1 / inverseDegrees : Number.POSITIVE_INFINITY,
  };
}

/** The independent error of one point; `unitStep` is the step of this unit's own converter. */
export const pointPart = (
  { readings, readingDeviation, ownStandard = 0 }: CalibrationPoint,
  reference: ReferenceInstrument,
  unitStep: number,
): Part =>
  combine([
    meanPart(readingDeviation, readings),
    stepPart(reference.resolution),
    stepPart(unitStep),
    { standard: ownStandard, degreesOfFreedom: Number.POSITIVE_INFINITY },
  ]);

/** More degrees of freedom than this count as infinite, and are stored as null. */
const MANY = 1e9;
export const degreesOrNull = (degrees: number): number | null => (degrees < MANY ? degrees : null);

/**
 * Uncertainty of a straight line through two points, seen from `zero`. Offset and slope are treated
 * as independent although they are negatively correlated, so that the result is rather too large
 * than too small for values between the points and above both zero and the points.
 */
export function lineUncertainty(
  points: readonly [CalibrationPoint, CalibrationPoint],
  reference: ReferenceInstrument,
  unitStep: number,
  zero: number,
): CalibrationUncertainty {
  const common = referencePart(reference);
  const [first, second] = points;
  const [a, b] = [pointPart(first, reference, unitStep), pointPart(second, reference, unitStep)];
  const apart = second.reading - first.reading;
  const weightOfSecond = (zero - first.reading) / apart;
  const worst = a.standard > b.standard ? a : b;
  const { standard, degreesOfFreedom } = combine([common, worst]);
  return {
    standard,
    degreesOfFreedom: degreesOrNull(degreesOfFreedom),
    offsetStandard: Math.hypot(
      common.standard,
      (1 - weightOfSecond) * a.standard,
      weightOfSecond * b.standard,
    ),
    slopeStandard: Math.hypot(a.standard, b.standard) / Math.abs(apart),
  };
}
