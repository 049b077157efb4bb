/**
 * The dose of a job, at the resin and as the sensor must read it. The profile states the least dose
 * at the resin, as data sheets do. A break of known depth may need more, by the resin's working
 * curve (Jacobs 1992, from memory): a layer cures to depth = Dp ln(E / Ec), so a depth needs
 * E = Ec exp(depth / Dp); the margin covers the spread of resin batches. Both go the same way to
 * the sensor: film and spot let only a share of its reading reach the resin (`light-path.ts`).
 * Whether the lamp can deliver the dose in time is judged before the job, elsewhere.
 */

/** Critical exposure and penetration depth of one resin under one lamp. */
export interface WorkingCurve {
  /** Exposure at which the resin begins to gel, J/m2. */
  readonly criticalJPerM2: number;
  /** Depth in which light falls to 1/e, m. */
  readonly penetrationM: number;
}

export interface DoseRules {
  /** The least that the profile allows, J/m2 at the resin. */
  readonly targetAtResinJPerM2: number;
  /** At least 1. */
  readonly marginFactor: number;
}

export interface TargetDose {
  /** As the sensor must read it, J/m2. */
  readonly targetJPerM2: number;
  readonly atResinJPerM2: number;
  readonly setBy: 'profile' | 'break';
  /** What the depth requires, as the sensor must read it; null where depth or curve is not known. */
  readonly breakJPerM2: number | null;
}

/** Exposure that cures a layer of `depthM`, J/m2, at the face of the resin. */
export const exposureToCureJPerM2 = (
  { criticalJPerM2, penetrationM }: WorkingCurve,
  depthM: number,
): number => criticalJPerM2 * Math.exp(depthM / penetrationM);

/** `resinPerSensorRatio`: light at the resin as a share of the sensor's reading, above 0 to 1. */
export function targetDoseOf(
  { targetAtResinJPerM2, marginFactor }: DoseRules,
  resinPerSensorRatio: number,
  depthM: number | null,
  curve: WorkingCurve | null,
): TargetDose {
  const needed =
    depthM === null || curve === null ? null : exposureToCureJPerM2(curve, depthM) * marginFactor;
  const deep = needed !== null && needed > targetAtResinJPerM2;
  const atResinJPerM2 = deep ? needed : targetAtResinJPerM2;
  return {
    targetJPerM2: atResinJPerM2 / resinPerSensorRatio,
    atResinJPerM2,
    setBy: deep ? 'break' : 'profile',
    breakJPerM2: needed === null ? null : needed / resinPerSensorRatio,
  };
}
