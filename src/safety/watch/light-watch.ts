/**
 * Whether the lit sensor's reading keeps to its level. A warm lamp drifts by a few hundredths of a
 * per cent a second; a sensor that jumps, a lamp that flickers or one that was knocked leaves its
 * level at once. Raw counts are judged, because the median of a reading hides every second sample.
 * The level is carried over a short interruption of the lamp and forgotten after a long one.
 */

export interface LightWatch {
  /** Counts while the lamp was off. */
  readonly restCounts: number;
  /** Slow mean of the lit counts; null until two samples agree. */
  readonly levelCounts: number | null;
  readonly beforeCounts: number;
  readonly onS: number;
  readonly offS: number;
  /** Time off its level since the lamp was switched on, s. */
  readonly oddS: number;
}

export const LIGHT_WATCH_START: LightWatch = {
  restCounts: 0,
  levelCounts: null,
  beforeCounts: 0,
  onS: 0,
  offS: Number.POSITIVE_INFINITY,
  oddS: 0,
};

/** The lamp's own rise, with the frames on the way. */
const RISES_WITHIN_S = 0.5;
/** A share of the light, far above noise and drift; and what a weak lamp's noise and steps need. */
const OFF_LEVEL_RATIO = 0.1;
const LEAST_OFF_COUNTS = 4;
const LEVEL_FOLLOWS_S = 10;
const FORGOTTEN_AFTER_S = 3;
/** Noise does not make the resting counts new. */
const RESTS_WITHIN_COUNTS = 2;

/** `counts`: the latest; null when none was ever taken. */
export function stepLightWatch(
  watch: LightWatch,
  counts: number | null,
  lampOn: boolean,
  dtS: number,
): LightWatch {
  if (counts === null) return LIGHT_WATCH_START;
  return lampOn ? lit(watch, counts, dtS) : resting(watch, counts, dtS);
}

function resting(watch: LightWatch, counts: number, dtS: number): LightWatch {
  const forgotten = watch.offS >= FORGOTTEN_AFTER_S;
  const same = Math.abs(counts - watch.restCounts) <= RESTS_WITHIN_COUNTS;
  if (forgotten && same && watch.levelCounts === null) return watch;
  return {
    restCounts: same ? watch.restCounts : counts,
    levelCounts: forgotten ? null : watch.levelCounts,
    beforeCounts: counts,
    onS: 0,
    offS: watch.offS + dtS,
    oddS: 0,
  };
}

function lit(watch: LightWatch, counts: number, dtS: number): LightWatch {
  const { restCounts, levelCounts, beforeCounts } = watch;
  const onS = watch.onS + dtS;
  const reference = levelCounts ?? beforeCounts;
  const mostOff = Math.max(LEAST_OFF_COUNTS, OFF_LEVEL_RATIO * (reference - restCounts));
  const odd = Math.abs(counts - reference) > mostOff;
  const rising = onS < RISES_WITHIN_S;
  return {
    restCounts,
    levelCounts:
      rising || odd ? levelCounts : reference + ((counts - reference) * dtS) / LEVEL_FOLLOWS_S,
    beforeCounts: counts,
    onS,
    offS: 0,
    oddS: rising || !odd ? watch.oddS : watch.oddS + dtS,
  };
}
