/**
 * The doses of this job for fill and pit, at the resin and as the sensor must read them: the
 * profile's minimum or the dose that the depth requires, whichever is more, and whether the lamp
 * can give them. Cured together they share one dose, by the depth and width of the break. All users
 * of a target take it from here.
 */

import type { Portion } from '../../../core/measurements.ts';
import { memoized } from '../../../core/memoized.ts';
import { type PhaseId, PIT_PHASES } from '../../../core/phases.ts';
import type { SettingsProblem } from '../../../core/settings.ts';
import { mJPerCm2FromJPerM2, mWPerCm2FromWPerM2 } from '../../../core/units.ts';
import { type CureTarget, forecastS } from '../../../cure/dose.ts';
import { resinPerSensorRatio } from '../../../cure/light-path.ts';
import { type TargetDose, targetDoseOf } from '../../../cure/target-dose.ts';
import type { RepairConfig } from '../repair-state.ts';
import { workPlanOf } from '../work-plan.ts';

type JobRules = Pick<RepairConfig, 'profile' | 'job' | 'unit'>;

/** The working curve of the pit's resin. */
export const pitCurveOf = ({ job }: Pick<RepairConfig, 'job'>) => (job.pitResin ?? job.resin).curve;

/**
 * From the axis of the lamp, over the pit or over the middle of a field, to the resin that is
 * farthest from it.
 */
export function radiusOf(config: JobRules, portion: Portion): number {
  const { damage } = config.job;
  if (portion === 'pit') return damage.pitM / 2;
  const { fieldRadiusM } = workPlanOf(config);
  return fieldRadiusM ?? Math.max(damage.diameterM / 2, damage.longestLegM);
}

/** Light on that resin as a share of what the sensor reads. */
export const resinRatioOf = (config: JobRules, portion: Portion): number =>
  resinPerSensorRatio(
    config.unit.lightPath,
    config.profile.cure.filmRatio,
    radiusOf(config, portion),
  );

export const jobTargetsOf = memoized<JobRules, Readonly<Record<Portion, TargetDose>>>((config) => {
  const { profile, job } = config;
  const { cure, pitCure } = profile;
  const { depthM, pitDepthM } = job.damage;
  const fill = targetDoseOf(cure, resinRatioOf(config, 'fill'), depthM, job.resin.curve);
  if (pitCure === null) return { fill, pit: fill };
  const rules = { ...cure, targetAtResinJPerM2: pitCure.targetAtResinJPerM2 };
  const pitRatio = resinRatioOf(config, 'pit');
  return { fill, pit: targetDoseOf(rules, pitRatio, pitDepthM, pitCurveOf(config)) };
});

/** The profile's cures with the job's targets. */
export const jobCuresOf = memoized<JobRules, Readonly<Record<Portion, CureTarget>>>((config) => {
  const { cure, pitCure } = config.profile;
  const targets = jobTargetsOf(config);
  type Times = Pick<CureTarget, 'leastS' | 'longestS'>;
  const cureOf = (portion: Portion, { leastS, longestS }: Times) => ({
    targetJPerM2: targets[portion].targetJPerM2,
    leastS,
    longestS,
  });
  const fill = cureOf('fill', cure);
  return { fill, pit: pitCure === null ? fill : cureOf('pit', pitCure) };
});

/** The portion that this phase treats; where both are cured together it is the fill's. */
export function portionIn(phase: PhaseId, { profile }: Pick<RepairConfig, 'profile'>): Portion {
  return profile.curing === 'apart' && PIT_PHASES.has(phase) ? 'pit' : 'fill';
}

/** Upper end of a profile's range, J/m2: no profile may ask for more, whatever the lamp. */
const GREATEST_J_PER_M2 = 500_000;

interface Depth {
  readonly portion: Portion;
  readonly depthM: number | null;
  readonly path: string;
  readonly longest: string;
}

/**
 * Why this damage cannot be cured here, or nothing: a dose beyond any profile, or one that the lamp
 * is not shown to give in the longest time at its last known output. A profile's own target is left
 * to the warning of the self-test: there the lamp is at fault, not the job.
 */
export function jobBeyondLamp(config: RepairConfig, file: string): readonly SettingsProblem[] {
  const { depthM, pitDepthM } = config.job.damage;
  const fill: Depth = {
    portion: 'fill',
    depthM,
    path: 'damage.depthMm',
    longest: 'cure.longestS',
  };
  const pit: Depth = {
    portion: 'pit',
    depthM: pitDepthM,
    path: 'damage.pitDepthMm',
    longest: 'pitCure.longestS',
  };
  const cured = config.profile.curing === 'apart' ? [fill, pit] : [fill];
  return cured.flatMap((depth) => depthBeyondLamp(config, file, depth));
}

function depthBeyondLamp(
  config: RepairConfig,
  file: string,
  { portion, depthM, path, longest }: Depth,
): readonly SettingsProblem[] {
  const { setBy, targetJPerM2 } = jobTargetsOf(config)[portion];
  if (setBy === 'profile' || depthM === null) return [];
  const { lampLastKnownWPerM2: lampWPerM2, doseUncertaintyTerms } = config.unit;
  const cure = jobCuresOf(config)[portion];
  const { longestS } = cure;
  const needsS = lampWPerM2 === null ? 0 : forecastS(lampWPerM2, cure, doseUncertaintyTerms);
  const accepted =
    targetJPerM2 > GREATEST_J_PER_M2
      ? `a depth that requires at most ${milliJoules(GREATEST_J_PER_M2)}`
      : lampWPerM2 !== null && needsS > longestS
        ? `a depth cured within ${longest}, ${longestS} s: this takes ${Math.ceil(needsS)} s at ${mWPerCm2FromWPerM2(lampWPerM2)} mW/cm2, the lamp's last known output`
        : null;
  if (accepted === null) return [];
  const value = `${depthM * 1000}, which requires ${milliJoules(targetJPerM2)} at the sensor by the resin's working curve, margin, film and spot`;
  return [{ file, path, value, accepted }];
}

const milliJoules = (jPerM2: number): string =>
  `${mJPerCm2FromJPerM2(jPerM2).toPrecision(4)} mJ/cm2`;
