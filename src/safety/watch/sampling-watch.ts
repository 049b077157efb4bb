/**
 * Time between two frames that counts for nothing, because a late frame buys no dwell and no dose.
 * What acts meanwhile acts all the same, so its share must stay small: the alarm table decides how
 * small. One late frame has an alarm of its own.
 */

export interface SamplingWatch {
  /** Over the whole job, s. */
  readonly uncountedS: number;
  /** As a share of the last seconds. */
  readonly uncountedShare: number;
}

export const SAMPLING_START: SamplingWatch = { uncountedS: 0, uncountedShare: 0 };

/** Time constant of the share. */
const SHARE_S = 2;
/** A frame later than this is late by itself: more of it does not make the others rarer. */
const MOST_A_FRAME_S = 0.1;

/** `gapS`: since the last frame; `dtS`: the part of it that counts. */
export function stepSampling(watch: SamplingWatch, gapS: number, dtS: number): SamplingWatch {
  if (gapS <= 0) return watch;
  const uncountedS = gapS - dtS;
  const share = Math.min(uncountedS, MOST_A_FRAME_S) / gapS;
  const weight = 1 - Math.exp(-gapS / SHARE_S);
  return {
    uncountedS: watch.uncountedS + uncountedS,
    uncountedShare: watch.uncountedShare + weight * (share - watch.uncountedShare),
  };
}
