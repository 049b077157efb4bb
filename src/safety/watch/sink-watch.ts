/**
 * Holds the heat sink's thermistor against the lamp's power. From each time that the lamp is
 * switched on or off three heat sinks are calculated: the usual one, the slowest and the quickest
 * that a sound lamp can have. A reading below the slowest or above the quickest is the sensor's
 * fault or the lamp's; the alarm table decides by how much.
 */
import type { LampHeat } from '../lamp-heat-settings.ts';
import { type LampSeen, lampSeen, type Rise, toward } from './warming.ts';

export interface SinkWatch extends LampSeen {
  /** Since the lamp was switched on or off; null before it has ever been on, s. */
  readonly sinceS: number | null;
  /** The reading, smoothed; null while there is none, K. */
  readonly sinkK: number | null;
  /** Where it was before the lamp was ever on, K. */
  readonly restK: number;
  /** Where it was when the lamp was switched, K. */
  readonly fromK: number;
  readonly slowestK: number;
  readonly usualK: number;
  readonly quickestK: number;
}

export const SINK_WATCH_START: SinkWatch = {
  lit: false,
  sinceS: null,
  darkS: 0,
  sinkK: null,
  restK: 0,
  fromK: 0,
  slowestK: 0,
  usualK: 0,
  quickestK: 0,
};

export interface SinkScene {
  /** Null while the reading is not valid. */
  readonly sinkK: number | null;
  /** Drive of the lamp, 0 to 1; 0 while it is off. */
  readonly driveRatio: number;
  readonly airK: number;
}

/** White noise of 0.05 K leaves 0.01 K; a ramp of 0.2 K/s lags by 0.4 K. */
const SMOOTHING_S = 2;

export function stepSinkWatch(
  watch: SinkWatch,
  { sinkK, driveRatio, airK }: SinkScene,
  heat: LampHeat,
  dtS: number,
): SinkWatch {
  const { lit, darkS } = lampSeen(watch, driveRatio > 0, dtS);
  if (sinkK === null) return { ...SINK_WATCH_START, darkS };
  const nowK = toward(watch.sinkK ?? sinkK, sinkK, dtS, SMOOTHING_S);
  // Before the lamp has been on nothing is expected of its heat sink.
  if (lit !== watch.lit || watch.sinceS === null) {
    const sinceS = lit || watch.lit ? 0 : null;
    const restK = watch.sinceS === null ? nowK : watch.restK;
    // Field by field: this runs at every tick before the lamp is on.
    return {
      lit,
      sinceS,
      darkS,
      sinkK: nowK,
      restK,
      fromK: nowK,
      slowestK: nowK,
      usualK: nowK,
      quickestK: nowK,
    };
  }
  return calculated(watch, { lit, darkS, sinkK: nowK, driveRatio, airK }, heat, dtS);
}

type Now = Pick<SinkWatch, 'lit' | 'darkS' | 'sinkK'> & Pick<SinkScene, 'driveRatio' | 'airK'>;

function calculated(
  watch: SinkWatch,
  { lit, darkS, sinkK, driveRatio, airK }: Now,
  heat: LampHeat,
  dtS: number,
): SinkWatch {
  const { restK, fromK, slowestK, usualK, quickestK } = watch;
  const coolestK = Math.min(airK, restK) - heat.airWithinK;
  const warmestK = Math.max(airK, restK) + heat.airWithinK;
  const { electricW, heatLeastRatio, sinkWithinRatio } = heat;
  const leastW = driveRatio * electricW * heatLeastRatio;
  const mostW = driveRatio * electricW * (1 + sinkWithinRatio);
  const usualW = driveRatio * electricW - heat.sinkWPerK * (usualK - airK);
  return {
    lit,
    sinceS: (watch.sinceS ?? 0) + dtS,
    darkS,
    sinkK,
    restK,
    fromK,
    slowestK: slowestK + dtS * extremeRate(slowestK, leastW, coolestK, heat, -1),
    usualK: usualK + (dtS * usualW) / heat.sinkJPerK,
    quickestK: quickestK + dtS * extremeRate(quickestK, mostW, warmestK, heat, 1),
  };
}

/**
 * The fastest (`way` 1) or slowest (-1) change of a sound heat sink, K/s: of capacity and loss the
 * end of the range that takes it that way.
 */
function extremeRate(
  sinkK: number,
  powerW: number,
  airK: number,
  { sinkJPerK, sinkWPerK, sinkWithinRatio }: LampHeat,
  way: 1 | -1,
): number {
  const overK = sinkK - airK;
  const lossRatio = 1 - way * Math.sign(overK) * sinkWithinRatio;
  const netW = powerW - sinkWPerK * lossRatio * overK;
  const capacityRatio = 1 - way * Math.sign(netW) * sinkWithinRatio;
  return netW / (sinkJPerK * capacityRatio);
}

/** How much the lit heat sink lacks of the slowest rise; null while nothing is expected, K. */
export const sinkLackK = ({ lit, sinkK, slowestK }: SinkWatch): number | null =>
  lit && sinkK !== null ? slowestK - sinkK : null;

/** A heat sink in the sun warms without the lamp: it is not judged longer than this after it, s. */
const COOLS_S = 300;

/** How much it is above the quickest rise, or the slowest cooling; null while none is expected, K. */
export const sinkExcessK = ({ sinceS, lit, sinkK, quickestK }: SinkWatch): number | null =>
  sinceS !== null && sinkK !== null && (lit || sinceS < COOLS_S) ? sinkK - quickestK : null;

/** What it has cooled by since the lamp went off, K; null while it is on or has never been. */
export const sinkFallK = ({ lit, sinceS, sinkK, fromK }: SinkWatch): number | null =>
  lit || sinceS === null || sinkK === null ? null : fromK - sinkK;

/** The seen rise since the lamp was switched on, and the usual one, K; null while it is off. */
export const sinkRise = ({ lit, sinkK, fromK, usualK }: SinkWatch): Rise | null =>
  lit && sinkK !== null ? { seenK: sinkK - fromK, usualK: usualK - fromK } : null;
