/**
 * Uncertainty of a calibration in the manner of JCGM 100:2008 (the GUM), clauses 4, 5 and G.4. What
 * comes from the reference instrument errs all points alike; repeatability and the steps of both
 * displays err each point by itself. Whether the result is good enough is decided in calibration.ts.
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

/** From the width of a step to the standard deviation of what it hides: JCGM 100, 4.3.7. */
const STEP_DIVISOR = Math.sqrt(12);

export const referencePart = (reference: ReferenceInstrument): Part => ({
  standard: reference.expandedUncertainty / reference.coverageFactor,
  degreesOfFreedom: Number.POSITIVE_INFINITY,
});

export const stepPart = (step: number): Part => ({
  standard: step / STEP_DIVISOR,
  degreesOfFreedom: Number.POSITIVE_INFINITY,
});

/** Of a mean of repeated readings: JCGM 100, 4.2.3. */
export const meanPart = (deviation: number, readings: number): Part => ({
  standard: deviation / Math.sqrt(readings),
  degreesOfFreedom: readings - 1,
});

/** Independent parts together, with the effective degrees of Welch and Satterthwaite. */
export function combine(parts: readonly Part[]): Part {
  const standard = Math.hypot(...parts.map((part) => part.standard));
  const doubt = parts.reduce(
    (sum, part) =>
      part.standard === 0 ? sum : sum + (part.standard / standard) ** 4 / part.degreesOfFreedom,
    0,
  );
  return { standard, degreesOfFreedom: doubt > 0 ? 1 / doubt : Number.POSITIVE_INFINITY };
}

/** What errs one point by itself; `unitStep` is the step of this unit's own converter. */
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

/** Degrees beyond this many are as good as infinite, and are stored as null. */
const MANY = 1e9;
export const degreesOrNull = (degrees: number): number | null => (degrees < MANY ? degrees : null);

/**
 * Of a straight line through two points, seen from `zero`. Offset and slope are used as if they were
 * independent; they pull against each other, so that this says rather too much than too little for
 * values above both zero and points, and for those between.
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
