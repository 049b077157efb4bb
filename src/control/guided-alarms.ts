/**
 * What the alarms may look at in a guided procedure. Each step stands for a phase of a repair, whose
 * alarms hold in it. There is no pane and no resin, so that alarms about them have nothing to judge;
 * the unit's own limits stand in for a profile's, and no setting is loosened.
 */
import { stepOf } from '../guided/progress.ts';
import type { AlarmProfile } from '../safety/alarm-row.ts';
import type { UnitSettings } from '../unit-settings.ts';
import type { GuidedConfig, GuidedState } from './guided-state.ts';
import type { ProcedureAlarms } from './procedure.ts';

export const guidedAlarmsOf = (
  { unit }: GuidedConfig,
  { procedure }: GuidedState,
): ProcedureAlarms => ({
  phase: stepOf(procedure).alarmsOf,
  leakRatePaM3PerS: null,
  cureNeedsS: null,
  lampForecastS: null,
  heating: NO_PANE,
  openResin: NO_RESIN,
  selfTestFindings: [],
  profile: limitsOf(unit),
});

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
