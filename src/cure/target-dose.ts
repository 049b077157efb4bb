/**
 * The dose that a break of this depth needs, from the resin's working curve (Jacobs 1992, from
 * memory): a layer cures to depth = Dp ln(E / Ec), so a depth needs E = Ec exp(depth / Dp). The
 * margin covers the error of one radiometer and the spread of resin batches; the film transmits
 * only a share of the light. The job's target is never below the profile's. Whether the lamp can
 * deliver it in time is judged before the job, elsewhere.
 */

/** Critical exposure and penetration depth of one resin under one lamp. */
export interface WorkingCurve {
  /** Exposure at which the resin begins to gel, J/m2. */
  readonly criticalJPerM2: number;
  /** Depth in which light falls to 1/e, m. */
  readonly penetrationM: number;
}

export interface DoseRules {
  /** The least that the profile allows, J/m2. */
  readonly targetJPerM2: number;
  /** At least 1. */
  readonly marginFactor: number;
  /** Transmission of the cover film, above 0 to 1. */
  readonly filmRatio: number;
}

export interface TargetDose {
  readonly targetJPerM2: number;
  readonly setBy: 'profile' | 'break';
  /** Dose required by the break's depth; null where depth or working curve is not known. */
  readonly breakJPerM2: number | null;
}

/** Exposure that cures a layer of `depthM`, J/m2, at the face of the resin. */
export const exposureToCureJPerM2 = (
  { criticalJPerM2, penetrationM }: WorkingCurve,
  depthM: number,
): number => criticalJPerM2 * Math.exp(depthM / penetrationM);

/** The dose that the job must reach, as read by the radiometer above the film. */
export function targetDoseOf(
  { targetJPerM2, marginFactor, filmRatio }: DoseRules,
  depthM: number | null,
  curve: WorkingCurve | null,
): TargetDose {
  if (depthM === null || curve === null) {
    return { targetJPerM2, setBy: 'profile', breakJPerM2: null };
  }
  const breakJPerM2 = (exposureToCureJPerM2(curve, depthM) * marginFactor) / filmRatio;
  return breakJPerM2 > targetJPerM2
    ? { targetJPerM2: breakJPerM2, setBy: 'break', breakJPerM2 }
    : { targetJPerM2, setBy: 'profile', breakJPerM2 };
}
