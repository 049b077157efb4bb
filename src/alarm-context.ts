/**
 * Gathers what the alarms may look at from all over the controller, as plain values. It judges
 * nothing.
 */
import type { ControllerState, JobConfig } from './controller-state.ts';
import { cureLeftS } from './cure/dose.ts';
import type { Reading } from './frame.ts';
import { phaseOf } from './procedure/procedure.ts';
import type { Profile } from './procedure/profile.ts';
import { selfTestFindings } from './procedure/self-test.ts';
import type { AlarmContext, AlarmProfile } from './safety/alarm-row.ts';

export function alarmContextOf(
  { profile, unit }: JobConfig,
  state: ControllerState,
  reading: Reading,
  frameGapS: number,
): AlarmContext {
  const { procedure, dose, watch } = state;
  const last = unit.lampLastKnownWPerM2;
  return {
    reading,
    batch: state.batch,
    phase: procedure.phase,
    phaseElapsedS: procedure.elapsedS,
    setPointPa: state.setPointPa,
    atmospherePa: procedure.atmospherePa,
    leakRatePaM3PerS: procedure.leakRatePaM3PerS,
    frameGapS,
    silentS: reading.timeS - state.signal.sampledAtS,
    pumpFutileS: watch.pumpFutileS,
    lampOnForS: watch.lampOnForS,
    lampOffForS: watch.lampOffForS,
    ventOpenForS: watch.ventOpenForS,
    cureNeedsS: dose.lastWPerM2 === null ? null : dose.lampOnS + cureLeftS(dose, profile.cure),
    lampForecastS: last === null ? null : profile.cure.targetJPerM2 / last,
    selfTestFindings: procedure.phase === 'self-test' ? selfTestFindings(reading) : [],
    profile: alarmProfileOf(profile, state),
  };
}

function alarmProfileOf(profile: Profile, { procedure }: ControllerState): AlarmProfile {
  const { reachWithinS, answerWithinS } = phaseOf(procedure);
  return {
    lowestPa: profile.vacuum.lowestPa,
    highestGaugePa: profile.pressure.highestGaugePa,
    reachWithinS: reachWithinS(profile),
    answerWithinS,
    leakLimitPaM3PerS: profile.sealCheck.leakLimitPaM3PerS,
    lowestGlassK: profile.glass.lowestK,
    highestGlassK: profile.glass.highestK,
    longestCureS: profile.cure.longestS,
  };
}
