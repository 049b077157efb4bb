/**
 * Checks the board's clock. Dwells and doses are counted in its time, so it is compared with the
 * host's own monotonic time, which arrives with each frame as data. The alarm table decides what is
 * too far off or stands too long.
 *
 * A frame may arrive late but never early: among five seconds of frames the least delayed one gives
 * the offset of the two clocks, whatever the line and a busy host do to the others. Half a minute
 * later the offset is taken again. A gap, silence, a stopped clock or a frame without the host's
 * time restarts the comparison, because the board's clock is unknown in between.
 */

export interface ClockSeen {
  readonly timeS: number;
  /** Null where no comparison was made, as in older journals. */
  readonly hostTimeS: number | null;
  /** The frame came from the board, and no frame before it is missing. */
  readonly unbroken: boolean;
}

export interface ClockWatch {
  /** Host time at which the present comparison began; null while there is none. */
  readonly fromHostS: number | null;
  /**
   * Lead of the host's clock over the board's: the minimum in the first and in the last seconds.
   */
  readonly firstOffsetS: number;
  readonly lastOffsetS: number;
  /** Deviation of the board's clock as a share of the time: the worst of all comparisons. */
  readonly worstOffRatio: number;
  readonly boardS: number;
  /** Host time at which the board's time last advanced; null while it is not known. */
  readonly movedAtHostS: number | null;
  /** How long, by the host's clock, the board's clock has stood still, s. */
  readonly stoodS: number;
}

/** Below any board's tick. */
const LEAST_TICK_S = 1e-4;
/** A clock that stood for longer has an alarm of its own, and no comparison spans the gap. */
const STANDING_S = 0.25;
const LOOK_S = 5;
const APART_S = 30;

export const CLOCK_WATCH_START: ClockWatch = {
  fromHostS: null,
  firstOffsetS: Number.POSITIVE_INFINITY,
  lastOffsetS: Number.POSITIVE_INFINITY,
  worstOffRatio: 0,
  boardS: Number.NEGATIVE_INFINITY,
  movedAtHostS: null,
  stoodS: 0,
};

export function stepClockWatch(watch: ClockWatch, seen: ClockSeen): ClockWatch {
  const { timeS, hostTimeS, unbroken } = seen;
  const moved = timeS > watch.boardS + LEAST_TICK_S;
  const goesOnAgain = moved && watch.stoodS > STANDING_S;
  if (hostTimeS === null || !unbroken || goesOnAgain) {
    return { ...CLOCK_WATCH_START, worstOffRatio: watch.worstOffRatio, boardS: timeS };
  }
  const movedAtHostS = moved || watch.movedAtHostS === null ? hostTimeS : watch.movedAtHostS;
  const offsetS = hostTimeS - timeS;
  const fromHostS = watch.fromHostS ?? hostTimeS;
  const sinceS = hostTimeS - fromHostS;
  const firstOffsetS =
    sinceS <= LOOK_S ? Math.min(watch.firstOffsetS, offsetS) : watch.firstOffsetS;
  const lastOffsetS = sinceS >= APART_S ? Math.min(watch.lastOffsetS, offsetS) : watch.lastOffsetS;
  const compared = sinceS >= APART_S + LOOK_S;
  return {
    // The end of one comparison is the beginning of the next.
    fromHostS: compared ? fromHostS + APART_S : fromHostS,
    firstOffsetS: compared ? lastOffsetS : firstOffsetS,
    lastOffsetS: compared ? Number.POSITIVE_INFINITY : lastOffsetS,
    worstOffRatio: compared
      ? Math.max(watch.worstOffRatio, Math.abs(lastOffsetS - firstOffsetS) / APART_S)
      : watch.worstOffRatio,
    boardS: timeS,
    movedAtHostS,
    stoodS: hostTimeS - movedAtHostS,
  };
}
