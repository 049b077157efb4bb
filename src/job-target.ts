/**
 * The dose of this job: the profile's least or what the depth of the break asks for, whichever is
 * more, and whether the lamp can give it. Everything that uses a target uses this one.
 */
import type { JobConfig } from './controller-state.ts';
import { type CureTarget, forecastS } from './cure/dose.ts';
import { type TargetDose, targetDoseOf } from './cure/target-dose.ts';
import { onceForEach } from './once-for-each.ts';
import type { SettingsProblem } from './settings.ts';
import { mJPerCm2FromJPerM2, mWPerCm2FromWPerM2 } from './units.ts';

type JobRules = Pick<JobConfig, 'profile' | 'job'>;

export const jobTargetOf = onceForEach<JobRules, TargetDose>(({ profile, job }) =>
  targetDoseOf(profile.cure, job.damage.depthM, job.resin.curve),
);

/** The profile's cure with the job's target in it. */
export const jobCureOf = onceForEach<JobRules, CureTarget>((config) => {
  const { leastS, longestS } = config.profile.cure;
  return { targetJPerM2: jobTargetOf(config).targetJPerM2, leastS, longestS };
});

/** No profile may ask for more, whatever the lamp: the top of its own range, J/m2. */
const GREATEST_J_PER_M2 = 500_000;

/**
 * Why this break cannot be cured here, or nothing: a dose beyond any profile, or one that the lamp
 * would not be shown to give in the longest time at its last known output. A profile's own target is
 * left to the warning of the self-test: there the lamp is at fault, not the job.
 */
export function jobBeyondLamp(config: JobConfig, file: string): readonly SettingsProblem[] {
  const { setBy, targetJPerM2 } = jobTargetOf(config);
  const { depthM } = config.job.damage;
  if (setBy === 'profile' || depthM === null) return [];
  const { lampLastKnownWPerM2: lampWPerM2, doseDoubt } = config.unit;
  const { longestS } = config.profile.cure;
  const needsS = lampWPerM2 === null ? 0 : forecastS(lampWPerM2, jobCureOf(config), doseDoubt);
  const accepted =
    targetJPerM2 > GREATEST_J_PER_M2
      ? `a depth that asks for at most ${milliJoules(GREATEST_J_PER_M2)}`
      : lampWPerM2 !== null && needsS > longestS
        ? `a depth cured within cure.longestS, ${longestS} s: this takes ${Math.ceil(needsS)} s at ${mWPerCm2FromWPerM2(lampWPerM2)} mW/cm2, the lamp's last known output`
        : null;
  if (accepted === null) return [];
  const value = `${depthM * 1000}, which asks for ${milliJoules(targetJPerM2)} by the resin's working curve, margin and film`;
  return [{ file, path: 'damage.depthMm', value, accepted }];
}

const milliJoules = (jPerM2: number): string =>
  `${mJPerCm2FromJPerM2(jPerM2).toPrecision(4)} mJ/cm2`;
