/**
 * Effects of heat and daylight on the pane and on exposed resin, tick by tick: tells the watches
 * which phases concern them, supplies the alarms, and records each required value once. It judges
 * nothing.
 */

import { measuredEvents, type UnstampedEvent } from '../../core/events.ts';
import { lampBurns, type Reading, valueOrNull } from '../../core/frame.ts';
import {
  type MeasuredValue,
  measuredOfCure,
  measuredOfJob,
  PORTIONS,
  type Portion,
} from '../../core/measurements.ts';
import { memoized } from '../../core/memoized.ts';
import { CURE_PHASES, HEAT_PHASES, isResinOpen, type PhaseId } from '../../core/phases.ts';
import { RESIN_CLOSED, stepOpenResin } from '../../cure/open-resin.ts';
import type { TargetDose } from '../../cure/target-dose.ts';
import type { HeatLoad, OpenResinLoad } from '../../safety/alarm-row.ts';
import { allowedHeating, type HeatingLimits, type Leg } from '../../safety/watch/heat-stress.ts';
import { heatLoadFrom, stepHeatWatch } from '../../safety/watch/heat-watch.ts';
import { isEnded } from '../batch.ts';
import { jobTargetsOf, pitCurveOf, portionIn } from './cure/job-target.ts';
import type { RepairConfig, RepairScene, RepairState } from './repair-state.ts';
import { workPlanOf } from './work-plan.ts';

export function watchPane(
  { scene: { heat, openResin }, procedure, batch, commanded }: RepairState,
  reading: Reading,
  { unit, profile, job }: RepairConfig,
  passedS: number,
): Pick<RepairScene, 'heat' | 'openResin'> {
  const { phase, resinInBreak } = procedure;
  const scene = {
    glassK: valueOrNull(reading.glassK),
    watching: HEAT_PHASES.has(phase),
    airK: job.airK,
    lowestGlassK: profile.glass.lowestK,
    paneFollowsAirS: unit.heating.paneFollowsAirS,
  };
  const resin = {
    open: isResinOpen(phase, resinInBreak) && !isEnded(batch),
    lampOn: lampBurns(commanded),
  };
  return {
    heat: stepHeatWatch(heat, scene, passedS),
    // The fill has set, and the pit gets a fresh drop.
    openResin:
      phase === 'uncover-fill'
        ? RESIN_CLOSED
        : stepOpenResin(openResin, reading.irradianceWPerM2, resin, unit.leastSeenWPerM2, passedS),
  };
}

/** The limits for the longest leg, or for the radius of a break without legs. */
const heatLimitsOf = memoized<RepairConfig, Leg & HeatingLimits>(({ unit, job: { damage } }) => {
  const { legShare, plyM, own } = unit.heating;
  const legM = damage.longestLegM > 0 ? damage.longestLegM : damage.diameterM / 2;
  const leg = { legM, legShare, plyM };
  return { ...leg, ...allowedHeating(own, leg) };
});

export function heatLoadOf(config: RepairConfig, { scene: { heat } }: RepairState): HeatLoad {
  const limits = heatLimitsOf(config);
  return heatLoadFrom(heat, limits, limits.legM, limits.plyM);
}

export function openResinLoadOf(
  config: RepairConfig,
  { scene: { openResin }, procedure }: Seen,
): OpenResinLoad {
  const ofPit = portionIn(procedure.phase, config) === 'pit';
  const curve = ofPit ? pitCurveOf(config) : config.job.resin.curve;
  const criticalShare = curve === null ? null : openResin.doseJPerM2 / curve.criticalJPerM2;
  return { criticalShare, lit: openResin.lit };
}

/** The current phase, and what is watched beside it. */
type Seen = Pick<RepairState, 'procedure' | 'scene'>;

/** The share shown to a person while resin is exposed; null while it is small or not known. */
export function daylightToShow(config: RepairConfig, state: Seen): number | null {
  if (!isResinOpen(state.procedure.phase, state.procedure.resinInBreak)) return null;
  const { criticalShare } = openResinLoadOf(config, state);
  return (criticalShare ?? 0) >= config.unit.daylightShownFrom ? criticalShare : null;
}

/**
 * Measurements for the record about the job's target, heat and daylight, on entering these phases.
 */
export function paneMeasurements(
  before: PhaseId,
  state: Seen,
  config: RepairConfig,
): readonly UnstampedEvent[] {
  const { phase } = state.procedure;
  if (before !== phase && phase === 'job-sheet') return measuredEvents(limitsOf(config));
  if (before !== phase && CURE_PHASES.has(phase)) return measuredEvents(daylightOf(state, config));
  if (before === 'cure' && phase === 'scrape') {
    const { greatestSpotOverPaneK, greatestRateKPerS } = state.scene.heat;
    const heat = { greatestSpotOverPaneK, greatestHeatingKPerS: greatestRateKPerS };
    return measuredEvents(measuredOfJob(heat));
  }
  return [];
}

/** Of the portion that is about to be cured. */
function daylightOf(state: Seen, config: RepairConfig): readonly MeasuredValue[] {
  const { doseJPerM2, unseenJPerM2 } = state.scene.openResin;
  const { criticalShare } = openResinLoadOf(config, state);
  const { curing } = config.profile;
  const portion = curing === 'apart' ? portionIn(state.procedure.phase, config) : null;
  return measuredOfCure(portion, {
    openResinDoseJPerM2: doseJPerM2,
    openResinUnseenJPerM2: unseenJPerM2,
    ...(criticalShare !== null && { openResinShareRatio: criticalShare }),
  });
}

function targetsOf(config: RepairConfig): readonly MeasuredValue[] {
  const targets = jobTargetsOf(config);
  // A unit file without a light path is older than this measurement.
  const stated = config.unit.lightPath !== null;
  const ofPortion = (portion: Portion | null, target: TargetDose) => {
    const { targetJPerM2, atResinJPerM2, breakJPerM2 } = target;
    return measuredOfCure(portion, {
      ...(stated && { targetAtResinJPerM2: atResinJPerM2 }),
      targetJPerM2,
      ...(breakJPerM2 !== null && { depthTargetJPerM2: breakJPerM2 }),
    });
  };
  if (config.profile.curing === 'together') return ofPortion(null, targets.fill);
  return PORTIONS.flatMap((portion) => ofPortion(portion, targets[portion]));
}

/** A break that is worked in one place needs no word of it. */
function placesOf(config: RepairConfig): readonly MeasuredValue[] {
  const { positions, fields } = workPlanOf(config);
  return measuredOfJob({
    ...(positions.count > 1 && { positionsPlanned: positions.count }),
    ...(fields.count > 1 && { fieldsPlanned: fields.count }),
  });
}

function limitsOf(config: RepairConfig): readonly MeasuredValue[] {
  const { spotOverPaneK, rateKPerS } = heatLimitsOf(config);
  return [
    ...targetsOf(config),
    ...placesOf(config),
    ...measuredOfJob({ allowedSpotOverPaneK: spotOverPaneK, allowedHeatingKPerS: rateKPerS }),
  ];
}
