/**
 * Gathers what the alarms may look at while a guided procedure runs. Each step stands for a phase of
 * a repair, whose alarms hold in it. There is no pane and no resin, so that alarms about them have
 * nothing to judge; the unit's own limits stand in for a profile's, and no setting is loosened.
 */
import type { Reading } from './frame.ts';
import { stepOf } from './guided/progress.ts';
import type { GuidedConfig, GuidedState } from './guided-state.ts';
import type { AlarmContext, AlarmProfile } from './safety/alarm-row.ts';
import type { UnitSettings } from './unit-settings.ts';

export function guidedAlarmContext(
  { unit }: Pick<GuidedConfig, 'unit'>,
  state: GuidedState,
  reading: Reading,
  frameGapS: number,
): AlarmContext {
  const { progress, watch } = state;
  return {
    reading,
    batch: state.batch,
    phase: stepOf(progress).alarmsOf,
    phaseElapsedS: progress.elapsedS,
    setPointPa: state.setPointPa,
    atmospherePa: progress.atmospherePa,
    leakRatePaM3PerS: null,
    frameGapS,
    silentS: reading.timeS - state.signal.sampledAtS,
    clockOffRatio: watch.clock.worstOffRatio,
    clockStoodS: watch.clock.stoodS,
    darkLookS: null,
    // A calibration is there to find out what the lamp gives.
    lightShareRatio: null,
    pumpFutileS: watch.pumpFutileS,
    lampOnForS: watch.lampOnForS,
    lampOffForS: watch.lampOffForS,
    ventOpenForS: watch.ventOpenForS,
    cureNeedsS: null,
    lampForecastS: null,
    heating: NO_PANE,
    openResin: NO_RESIN,
    selfTestFindings: [],
    profile: limitsOf(unit),
  };
}

const NO_PANE = {
  spotOverPaneK: null,
  rateKPerS: null,
  allowedSpotOverPaneK: Number.POSITIVE_INFINITY,
  allowedRateKPerS: Number.POSITIVE_INFINITY,
  legM: 0,
  stressIntensityPaSqrtM: 0,
} as const;

const NO_RESIN = { criticalShare: null, lit: false } as const;

/** Nothing on a closed test piece can break: for vacuum the alarm's own setting stands. */
const limitsOf = ({ limits }: UnitSettings): AlarmProfile => ({
  lowestPa: 0,
  highestGaugePa: limits.highestPressureGaugePa,
  // Each step has a deadline and a reason of its own.
  reachWithinS: null,
  answerWithinS: null,
  leakLimitPaM3PerS: Number.POSITIVE_INFINITY,
  lowestGlassK: 0,
  highestGlassK: limits.highestGlassK,
  longestCureS: limits.longestLampOnS,
});
