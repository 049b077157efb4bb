/**
 * What the alarms may look at in a repair alone: the cure, the pane, the resin, the self-test, and the
 * limits of the profile in force. It judges nothing.
 */
import type { JobConfig } from '../controller-state.ts';
import { alarmCureOf } from '../dose-watch.ts';
import type { Reading } from '../frame.ts';
import { heatLoadOf, openResinLoadOf } from '../pane-watch.ts';
import type { Phrase } from '../phrases.ts';
import { phaseOf } from '../procedure/procedure.ts';
import type { Profile } from '../procedure/profile.ts';
import { selfTestFindings } from '../procedure/self-test.ts';
import type { AlarmProfile } from '../safety/alarm-row.ts';
import type { ProcedureAlarms } from './procedure.ts';
import type { RepairState } from './repair-state.ts';

export function repairAlarmsOf(
  config: JobConfig,
  state: RepairState,
  reading: Reading,
): ProcedureAlarms {
  const { procedure } = state;
  const cure = alarmCureOf(config, state);
  return {
    phase: procedure.phase,
    leakRatePaM3PerS: procedure.leakRatePaM3PerS,
    cureNeedsS: cure.needsS,
    lampForecastS: cure.forecastS,
    heating: heatLoadOf(config, state),
    openResin: openResinLoadOf(config, state),
    selfTestFindings: findingsOf(config, state, reading),
    profile: alarmProfileOf(config.profile, state, cure.longestS),
  };
}

const NO_FINDINGS: readonly Phrase[] = [];

/** What the self-test finds wrong; empty in other phases. */
export function findingsOf(
  { profile, unit }: JobConfig,
  { procedure }: RepairState,
  reading: Reading,
): readonly Phrase[] {
  if (procedure.phase !== 'self-test') return NO_FINDINGS;
  return selfTestFindings(reading, profile, unit.pump.greatestRatio);
}

function alarmProfileOf(
  profile: Profile,
  { procedure }: RepairState,
  longestCureS: number,
): AlarmProfile {
  const { reachWithinS, answerWithinS } = phaseOf(procedure);
  return {
    lowestPa: profile.vacuum.lowestPa,
    highestGaugePa: profile.pressure.highestGaugePa,
    reachWithinS: reachWithinS(profile),
    answerWithinS,
    leakLimitPaM3PerS: profile.sealCheck.leakLimitPaM3PerS,
    lowestGlassK: profile.glass.lowestK,
    highestGlassK: profile.glass.highestK,
    longestCureS,
  };
}
