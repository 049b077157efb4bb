/**
 * Heat while a guided procedure burns the lamp: its heat sink against its power, and what the glass
 * thermistor warms by. There is no job sheet and no pane in the light: the glass thermistor tells
 * the air before the lamp is on, the unit's own limits on heat apply, and no warming of the glass is
 * expected, because a radiometer stands in its place. The alarm table judges.
 */
import type { UnitSettings } from '../../control/unit-settings.ts';
import { type Actuators, lampBurns, type Reading, valueOrNull } from '../../core/frame.ts';
import { CURE_PHASES, type PhaseId } from '../../core/phases.ts';
import type { HeatLoad, LampHeatLoad } from '../../safety/alarm-row.ts';
import {
  HEAT_WATCH_START,
  type HeatWatch,
  heatLoadFrom,
  stepHeatWatch,
} from '../../safety/watch/heat-watch.ts';
import {
  SINK_WATCH_START,
  type SinkWatch,
  sinkExcessK,
  sinkLackK,
  stepSinkWatch,
} from '../../safety/watch/sink-watch.ts';

export interface LampWatch {
  readonly sink: SinkWatch;
  readonly heat: HeatWatch;
  /** The glass thermistor's last reading in the dark; null before one, K. */
  readonly airK: number | null;
}

export const LAMP_WATCH_START: LampWatch = {
  sink: SINK_WATCH_START,
  heat: HEAT_WATCH_START,
  airK: null,
};

/** Heat sink and pane are calculated in steps well below their time constants, s. */
const LONGEST_STEP_S = 20;

export interface LampScene {
  readonly reading: Reading;
  readonly commanded: Actuators;
  /** The repair phase that the step stands for. */
  readonly phase: PhaseId;
}

export function stepLampWatch(
  { sink, heat, airK: beforeK }: LampWatch,
  { reading, commanded, phase }: LampScene,
  { lampHeat, heating }: UnitSettings,
  gapS: number,
): LampWatch {
  const lampOn = lampBurns(commanded);
  const [glassK, sinkK] = [valueOrNull(reading.glassK), valueOrNull(reading.heatSinkK)];
  const airK = lampOn || sink.sinceS !== null ? beforeK : (glassK ?? beforeK);
  const dtS = Math.min(gapS, LONGEST_STEP_S);
  const driveRatio = lampOn ? commanded.lampRatio : 0;
  const scene = { sinkK, driveRatio, airK: airK ?? sinkK ?? 0 };
  const glass = {
    glassK,
    // Held, the lamp is off and its heat is still there.
    watching: lampOn || CURE_PHASES.has(phase),
    airK: airK ?? glassK ?? 0,
    lowestGlassK: 0,
    paneFollowsAirS: heating.paneFollowsAirS,
  };
  return {
    sink: stepSinkWatch(sink, scene, lampHeat, dtS),
    heat: stepHeatWatch(heat, glass, dtS),
    airK,
  };
}

export const lampHeatOf = ({ sink }: LampWatch): LampHeatLoad => ({
  sinkLackK: sinkLackK(sink),
  sinkExcessK: sinkExcessK(sink),
  glassLackK: null,
  apartK: null,
});

/** The leg that the unit's own limits are derived for (`safety/heating-settings.ts`), m. */
const OWN_LIMITS_LEG_M = 0.005;

/** Without a break there is no leg to tighten the unit's own limits. */
export const heatOf = ({ heat }: LampWatch, { heating: { own, plyM } }: UnitSettings): HeatLoad =>
  heatLoadFrom(heat, own, OWN_LIMITS_LEG_M, plyM);
