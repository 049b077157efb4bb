/**
 * Heat sink and glass during a repair: what the lamp must do to their temperatures, tick by tick,
 * for alarms and record. The watches calculate, and the alarm table judges.
 */
import { measuredEvents, type UnstampedEvent } from '../../core/events.ts';
import { lampBurns, type Reading, valueOrNull } from '../../core/frame.ts';
import { type JobMeasurement, measuredOfJob } from '../../core/measurements.ts';
import { CURE_PHASES, GLASS_PHASES, type PhaseId } from '../../core/phases.ts';
import type { LampHeatLoad } from '../../safety/alarm-row.ts';
import type { LampHeat } from '../../safety/lamp-heat-settings.ts';
import {
  type GlassWatch,
  glassLackK,
  glassRise,
  stepGlassWatch,
} from '../../safety/watch/glass-watch.ts';
import {
  type SinkWatch,
  sinkExcessK,
  sinkFallK,
  sinkLackK,
  sinkRise,
  stepSinkWatch,
} from '../../safety/watch/sink-watch.ts';
import type { RepairConfig, RepairState } from './repair-state.ts';

/** Both warm and cool in a silence too; the models want steps well below their time constants, s. */
const LONGEST_STEP_S = 20;

export function watchSink(
  { scene: { sink }, commanded }: RepairState,
  reading: Reading,
  { unit, job }: RepairConfig,
  gapS: number,
): SinkWatch {
  const driveRatio = lampBurns(commanded) ? commanded.lampRatio : 0;
  const scene = { sinkK: valueOrNull(reading.heatSinkK), driveRatio, airK: job.airK };
  return stepSinkWatch(sink, scene, unit.lampHeat, Math.min(gapS, LONGEST_STEP_S));
}

export function watchGlass(
  { scene: { glass }, procedure: { phase }, commanded }: RepairState,
  reading: Reading,
  { unit }: RepairConfig,
  gapS: number,
): GlassWatch {
  const lampOn = lampBurns(commanded);
  const scene = {
    glassK: valueOrNull(reading.glassK),
    lightWPerM2: lampOn ? valueOrNull(reading.irradianceWPerM2) : 0,
    lampOn,
    paneFollowsAirS: unit.heating.paneFollowsAirS,
    cure: CURE_PHASES.has(phase) ? phase : null,
  };
  return stepGlassWatch(glass, scene, unit.lampHeat, Math.min(gapS, LONGEST_STEP_S));
}

export function lampHeatLoadOf(
  config: RepairConfig,
  state: RepairState,
  reading: Reading,
): LampHeatLoad {
  const { sink, glass } = state.scene;
  return {
    sinkLackK: sinkLackK(sink),
    sinkExcessK: sinkExcessK(sink),
    glassLackK: glassLackK(glass),
    apartK: apartK(config, state, reading),
  };
}

/** A unit may come out of a van that is colder or warmer than the hall by this much, K; demo. */
const UNIT_BROUGHT_IN_K = 40;
/** The lamp must have been off for so long before its heat sink counts as being at rest, s. */
const AT_REST_S = 300;

/**
 * The greatest difference of heat sink, glass and air. A unit that was brought in settles with the
 * slowest time constant of its heat sink; a pane outside the profile's range has alarms of its own.
 */
function apartK(
  { unit: { lampHeat }, job: { airK }, profile }: RepairConfig,
  { scene: { sink }, procedure: { phase } }: RepairState,
  reading: Reading,
): number | null {
  const glassK = valueOrNull(reading.glassK);
  const { sinkK } = sink;
  if (!GLASS_PHASES.has(phase) || glassK === null || sinkK === null || sink.lit) return null;
  if (glassK < profile.glass.lowestK || glassK > profile.glass.highestK) return null;
  if (sink.sinceS !== null && sink.darkS < AT_REST_S) return null;
  const settlesK = UNIT_BROUGHT_IN_K * Math.exp(-sink.darkS / slowestS(lampHeat));
  const ofSinkK = Math.max(Math.abs(sinkK - airK), Math.abs(sinkK - glassK)) - settlesK;
  return Math.max(Math.abs(glassK - airK), ofSinkK);
}

const slowestS = ({ sinkJPerK, sinkWPerK, sinkWithinRatio }: LampHeat): number =>
  (sinkJPerK * (1 + sinkWithinRatio)) / (sinkWPerK * (1 - sinkWithinRatio));

/** For the record: both at rest on entering the first cure, and their rise by the end of each. */
export function lampHeatMeasurements(
  before: PhaseId,
  { procedure: { phase }, scene: { sink, glass } }: Pick<RepairState, 'procedure' | 'scene'>,
  { job: { airK } }: RepairConfig,
): readonly UnstampedEvent[] {
  if (before === phase) return [];
  if (CURE_PHASES.has(phase) && sink.sinceS === null) {
    return measured({
      glassOverAirK: over(glass.glassK, airK),
      heatSinkOverAirK: over(sink.sinkK, airK),
    });
  }
  if (phase === 'result') return measured({ heatSinkCooledK: sinkFallK(sink) });
  if (!CURE_PHASES.has(before)) return [];
  const ofGlass = glassRise(glass);
  const ofSink = sinkRise(sink);
  return measured({
    glassWarmedK: ofGlass?.seenK ?? null,
    glassUsuallyWarmedK: ofGlass?.usualK ?? null,
    heatSinkWarmedK: ofSink?.seenK ?? null,
    heatSinkUsuallyWarmedK: ofSink?.usualK ?? null,
  });
}

const over = (k: number | null, airK: number): number | null => (k === null ? null : k - airK);

/** What was not seen is left out. */
function measured(
  values: Readonly<Partial<Record<JobMeasurement, number | null>>>,
): readonly UnstampedEvent[] {
  const seen = Object.entries(values).filter(([, value]) => value !== null);
  return measuredEvents(measuredOfJob(Object.fromEntries(seen)));
}
