/**
 * Gathers what the alarms may look at from all over the controller, as plain values. It judges
 * nothing.
 */
import type { ControllerState, JobConfig } from './controller-state.ts';
import { alarmCureOf } from './dose-watch.ts';
import { type Reading, valueOrNull } from './frame.ts';
import { heatLoadOf, openResinLoadOf } from './pane-watch.ts';
import type { Phrase } from './phrases.ts';
import { phaseOf } from './procedure/procedure.ts';
import type { Profile } from './procedure/profile.ts';
import { selfTestFindings } from './procedure/self-test.ts';
import type { AlarmContext, AlarmProfile } from './safety/alarm-row.ts';

export function alarmContextOf(
  config: JobConfig,
  state: ControllerState,
  reading: Reading,
  frameGapS: number,
): AlarmContext {
  const { profile } = config;
  const { procedure, watch } = state;
  const cure = alarmCureOf(config, state);
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
    clockOffRatio: watch.clock.worstOffRatio,
    clockStoodS: watch.clock.stoodS,
    darkLookS: procedure.darkLookS,
    lightShareRatio: lightShareRatioOf(reading, config),
    pumpFutileS: watch.pumpFutileS,
    lampOnForS: watch.lampOnForS,
    lampOffForS: watch.lampOffForS,
    ventOpenForS: watch.ventOpenForS,
    cureNeedsS: cure.needsS,
    lampForecastS: cure.forecastS,
    heating: heatLoadOf(config, state),
    openResin: openResinLoadOf(config, state),
    selfTestFindings: findingsOf(config, state, reading),
    profile: alarmProfileOf(profile, state, cure.longestS),
  };
}

function lightShareRatioOf({ irradianceWPerM2 }: Reading, { unit }: JobConfig): number | null {
  const { lampLastKnownWPerM2: known } = unit;
  const light = valueOrNull(irradianceWPerM2);
  return known === null || light === null ? null : light / known;
}

const NO_FINDINGS: readonly Phrase[] = [];

/** What the self-test finds wrong; empty in other phases. */
export function findingsOf(
  { profile, unit }: JobConfig,
  { procedure }: ControllerState,
  reading: Reading,
): readonly Phrase[] {
  if (procedure.phase !== 'self-test') return NO_FINDINGS;
  return selfTestFindings(reading, profile, unit.pump.greatestRatio);
}

function alarmProfileOf(
  profile: Profile,
  { procedure }: ControllerState,
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
