/**
 * How much light a break of this depth asks for, from the resin's working curve (Jacobs 1992, from
 * memory): a layer cures to depth = Dp ln(E / Ec), so a depth needs E = Ec exp(depth / Dp). The
 * margin covers what one radiometer and one batch of resin may be off, and the film lets only a share
 * of the light through to the resin. The job's target is never less than the profile's. Whether the
 * lamp can give it in time is judged before the job, elsewhere.
 */

/** Critical exposure and penetration depth of one resin under one lamp. */
export interface WorkingCurve {
  /** Exposure at which the resin begins to set, J/m2. */
  readonly criticalJPerM2: number;
  /** Depth in which light falls to 1/e, m. */
  readonly penetrationM: number;
}

export interface DoseRules {
  /** The least that the profile allows, J/m2. */
  readonly targetJPerM2: number;
  /** At least 1. */
  readonly marginFactor: number;
  /** Share of the light that passes the cover film, over 0 to 1. */
  readonly filmRatio: number;
}

export interface TargetDose {
  readonly targetJPerM2: number;
  readonly setBy: 'profile' | 'break';
  /** What the break's depth asks for; null where depth or working curve is not known. */
  readonly breakJPerM2: number | null;
}

/** Exposure that cures a layer of `depthM`, J/m2, at the face of the resin. */
export const exposureToCureJPerM2 = (
  { criticalJPerM2, penetrationM }: WorkingCurve,
  depthM: number,
): number => criticalJPerM2 * Math.exp(depthM / penetrationM);

/** The dose that the job must reach, as the radiometer above the film reads it. */
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
