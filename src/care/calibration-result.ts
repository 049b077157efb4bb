/**
 * The result of a calibration, and when to reject it: the conditions that a straight-line
 * correction through two points must meet. Each condition that is not met gives a sentence that
 * says what to check. The limits are settings (care.json).
 */
import type { CalibrationPoint, CalibrationUncertainty } from './care-entry.ts';

export type TwoPoints = readonly [CalibrationPoint, CalibrationPoint];

export interface CalibrationResult<Line> {
  /** The channel's figures afterwards; unchanged where the calibration did not pass. */
  readonly after: Line;
  /** Amount to add to the reading at each point, in the unit of the channel. */
  readonly corrections: readonly number[];
  /** Error that remains at each check point after the correction. */
  readonly residuals: readonly number[];
  /** Null where the points do not determine it. */
  readonly uncertainty: CalibrationUncertainty | null;
  readonly passed: boolean;
  /** Why it did not pass and what to check, one sentence each. */
  readonly refusals: readonly string[];
}

/** For pressure in Pa and for temperature in K. */
export interface LineLimits {
  readonly greatestCorrection: number;
  readonly greatestResidual: number;
  readonly greatestStandardUncertainty: number;
  /** Points closer together than this do not determine a slope. */
  readonly leastApart: number;
}

interface Line<T> {
  readonly points: TwoPoints;
  readonly checks: readonly CalibrationPoint[];
  readonly before: T;
  readonly after: T;
  readonly corrected: (reading: number) => number;
  readonly uncertainty: CalibrationUncertainty;
  readonly limits: LineLimits;
}

export interface LineWords {
  readonly amount: (value: number) => string;
  readonly lookFor: string;
}

export function lineResult<T>(line: Line<T>, words: LineWords): CalibrationResult<T> {
  const { points, checks, before, after, corrected, uncertainty, limits } = line;
  const [first, second] = points;
  const corrections = points.map(({ reference, reading }) => reference - reading);
  const residuals = checks.map(({ reference, reading }) => corrected(reading) - reference);
  const most = largest(corrections);
  const left = largest(residuals);
  const { amount, lookFor } = words;
  const apart = Math.abs(second.reading - first.reading);
  const apartByReference = Math.abs(second.reference - first.reference);
  const refusals = refused([
    [
      Math.min(apart, apartByReference) >= limits.leastApart,
      `The two points are ${amount(Math.min(apart, apartByReference))} apart; at least ${amount(limits.leastApart)} is needed. Take them further apart.`,
    ],
    [
      Math.abs(most) <= limits.greatestCorrection,
      `The correction is ${amount(most)}; at most ${amount(limits.greatestCorrection)} is accepted. ${lookFor}`,
    ],
    [
      Math.abs(left) <= limits.greatestResidual,
      `A check point is still ${amount(left)} off after the correction; at most ${amount(limits.greatestResidual)} is accepted. ${lookFor}`,
    ],
    [
      uncertainty.standard <= limits.greatestStandardUncertainty,
      `The standard uncertainty is ${amount(uncertainty.standard)}; at most ${amount(limits.greatestStandardUncertainty)} is accepted. Use a better reference, or wait until readings are steady.`,
    ],
  ]);
  const passed = refusals.length === 0;
  return {
    after: passed ? after : before,
    corrections,
    residuals: residuals.filter(Number.isFinite),
    uncertainty: settled(uncertainty),
    passed,
    refusals,
  };
}

/** Coinciding points, or points without a signal, give figures that are not numbers. */
export const settled = (uncertainty: CalibrationUncertainty): CalibrationUncertainty | null =>
  Object.values(uncertainty).every((value) => value === null || Number.isFinite(value))
    ? uncertainty
    : null;

/** The value with the greatest magnitude; 0 where there is none. */
const largest = (values: readonly number[]): number =>
  values.reduce((most, value) => (Math.abs(value) > Math.abs(most) ? value : most), 0);

/** A condition that is not a number counts as not met. */
export const refused = (conditions: readonly (readonly [boolean, string])[]): readonly string[] =>
  conditions.flatMap(([met, words]) => (met ? [] : [words]));
