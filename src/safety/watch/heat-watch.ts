/**
 * How much warmer the worked spot is than the pane around it, and how fast it changes, from the
 * single thermistor on the glass. The pane away from the spot is calculated, not measured: it
 * starts at the spot's temperature when work begins, warms towards the job sheet's air temperature,
 * and is never taken as warmer than the spot, because no one chills a spot. Sun on the whole pane
 * therefore looks like a hot spot; shade is right for both. Limits are set elsewhere.
 */
import type { HeatLoad } from '../alarm-row.ts';
import {
  type HeatingLimits,
  hotSpotTensionPa,
  rateTensionPa,
  stressIntensityPaSqrtM,
} from './heat-stress.ts';

export interface HeatWatch {
  /** The pane around the spot; null before work on the glass begins, K. */
  readonly paneK: number | null;
  /** The spot, smoothed once and twice; null while it is not watched, K. */
  readonly onceK: number | null;
  readonly twiceK: number | null;
  readonly spotOverPaneK: number | null;
  readonly rateKPerS: number | null;
  /** The greatest values of this job so far; the rate in either direction. */
  readonly greatestSpotOverPaneK: number;
  readonly greatestRateKPerS: number;
}

export const HEAT_WATCH_START: HeatWatch = {
  paneK: null,
  onceK: null,
  twiceK: null,
  spotOverPaneK: null,
  rateKPerS: null,
  greatestSpotOverPaneK: 0,
  greatestRateKPerS: 0,
};

export interface HeatScene {
  /** Null while the reading is not valid. */
  readonly glassK: number | null;
  /** The sensor is on the glass being worked. */
  readonly watching: boolean;
  readonly airK: number;
  /** The profile works no glass colder than this. */
  readonly lowestGlassK: number;
  /** Time constant with which a pane colder than the air warms, s. */
  readonly paneFollowsAirS: number;
}

/**
 * Time constant of the rate. Smoothing twice and dividing the difference by the time constant gives
 * the slope of a regression whose weights fade as exp(-age / 8 s) (Brown 1963, from memory),
 * without stored samples. One count of the thermistor is 0.09 K at 25 C; a step of one count raises
 * the rate by at most 0.09 / e / 8 s = 0.25 K/min, and white noise of 0.05 K leaves 0.02 K/min, so
 * both stay well below a limit of some K/min. A ramp is detected to 60 % after 16 s and to 90 %
 * after 31 s.
 */
export const RATE_TIME_CONSTANT_S = 8;

/** A pane this little above the lowest working temperature is still being warmed as a whole, K. */
const STILL_COLD_K = 1;

export function stepHeatWatch(watch: HeatWatch, scene: HeatScene, dtS: number): HeatWatch {
  const { glassK, watching, lowestGlassK } = scene;
  const followedK = paneAfterK(watch.paneK, scene, dtS);
  if (!watching || glassK === null) {
    const { paneK, onceK } = watch;
    if (onceK === null) return followedK === paneK ? watch : { ...watch, paneK: followedK };
    return { ...watch, paneK: followedK, ...UNWATCHED };
  }
  const share = 1 - Math.exp(-dtS / RATE_TIME_CONSTANT_S);
  const onceK = blend(watch.onceK ?? glassK, glassK, share);
  const twiceK = blend(watch.twiceK ?? glassK, onceK, share);
  // A cold pane is held and warmed as a whole: until it may be worked it has no hot spot, and only
  // the rate is judged.
  const cold = glassK < lowestGlassK + STILL_COLD_K;
  const paneK = followedK === null || cold ? onceK : Math.min(followedK, onceK);
  const spotOverPaneK = onceK - paneK;
  const rateKPerS = (onceK - twiceK) / RATE_TIME_CONSTANT_S;
  return {
    paneK,
    onceK,
    twiceK,
    spotOverPaneK,
    rateKPerS,
    greatestSpotOverPaneK: Math.max(watch.greatestSpotOverPaneK, spotOverPaneK),
    greatestRateKPerS: Math.max(watch.greatestRateKPerS, Math.abs(rateKPerS)),
  };
}

const UNWATCHED = { onceK: null, twiceK: null, spotOverPaneK: null, rateKPerS: null } as const;

const blend = (fromK: number, toK: number, share: number): number => fromK + share * (toK - fromK);

function paneAfterK(
  paneK: number | null,
  { airK, paneFollowsAirS }: HeatScene,
  dtS: number,
): number | null {
  if (paneK === null || airK <= paneK) return paneK;
  return blend(paneK, airK, 1 - Math.exp(-dtS / paneFollowsAirS));
}

/** What the alarm table judges: spot and rate against what is allowed, and what both do to a leg. */
export function heatLoadFrom(
  { spotOverPaneK, rateKPerS }: HeatWatch,
  allowed: HeatingLimits,
  legM: number,
  plyM: number,
): HeatLoad {
  const tensionPa = hotSpotTensionPa(spotOverPaneK ?? 0) + rateTensionPa(rateKPerS ?? 0, plyM);
  return {
    spotOverPaneK,
    rateKPerS,
    allowedSpotOverPaneK: allowed.spotOverPaneK,
    allowedRateKPerS: allowed.rateKPerS,
    legM,
    stressIntensityPaSqrtM: stressIntensityPaSqrtM(tensionPa, legM),
  };
}
