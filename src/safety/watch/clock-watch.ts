/**
 * Checks the board's clock. Dwells and doses are counted in its time, so it is compared with the
 * host's own monotonic time, which arrives with each frame as data, over the whole job. The alarm
 * table decides what is too far off or stands too long.
 *
 * A frame may arrive late but never early: among five seconds of frames the least delayed one gives
 * the offset of the two clocks, whatever the line and a busy host do to the others. Each such look
 * is held against the first of the job and against those of the last half minute. Gaps are spanned,
 * because the board's counter goes on through them. Time that the host slept through, its own clock
 * standing, shows as a step at a gap or in a burst of queued frames, and a stand-still of the board
 * as a step after it: neither belongs to a rate.
 */

export interface ClockSeen {
  readonly timeS: number;
  /** Null where no comparison was made, as in older journals. */
  readonly hostTimeS: number | null;
  /** The frame came from the board, and no frame before it is missing. */
  readonly unbroken: boolean;
}

/** The least delayed frame of one look, and the lead of the host's clock over the board's by it. */
interface Look {
  readonly atHostS: number;
  readonly offsetS: number;
}

export interface ClockWatch {
  /** The first look of the job, and the latest ones, oldest first; empty before they are over. */
  readonly first: Look | null;
  readonly latest: readonly Look[];
  /** The best frame of the present look; null before it. */
  readonly best: Look | null;
  /** Time heard in the present look, gaps left out, s. */
  readonly heardS: number;
  /** Steps of the offset that belong to no rate, s. */
  readonly stepsS: number;
  /** By how much the board's time ran ahead in the frames that just gave no offset, s. */
  readonly aheadS: number;
  /** Deviation of the board's clock, as a share, that is shown at least: the worst of all. */
  readonly worstOffRatio: number;
  /** The same over the whole job so far, at most; infinite before two looks. */
  readonly offAtMostRatio: number;
  /** The number of looks, and the time between the first and the last, s. */
  readonly looks: number;
  readonly comparedS: number;
  /** The longest that no frame came from the board, by the host's clock, s. */
  readonly longestGapS: number;
  readonly boardS: number;
  readonly hostS: number | null;
  /** Host time of the last frame from the board; null before it. */
  readonly heardAtHostS: number | null;
  /** Host time at which the board's time last advanced; null while it is not known. */
  readonly movedAtHostS: number | null;
  /** How long, by the host's clock, the board's clock has stood still, s. */
  readonly stoodS: number;
}

/** Below any board's tick. */
const LEAST_TICK_S = 1e-4;
const LOOK_S = 5;
/** Looks of the last half minute. */
const LATEST = 6;
/**
 * Least delays of two looks differ by less than this: a frame that is later has an alarm of its
 * own.
 */
const DELAY_S = 0.2;
/** Greater steps of the offset are explained where host or board were away for as long. */
const STEP_S = 0.2;
/** Queued frames are read this many times as fast as they were sent, or faster. */
const BURST_RATIO = 8;

export const CLOCK_WATCH_START: ClockWatch = {
  first: null,
  latest: [],
  best: null,
  heardS: 0,
  stepsS: 0,
  aheadS: 0,
  worstOffRatio: 0,
  offAtMostRatio: Number.POSITIVE_INFINITY,
  looks: 0,
  comparedS: 0,
  longestGapS: 0,
  boardS: Number.NEGATIVE_INFINITY,
  hostS: null,
  heardAtHostS: null,
  movedAtHostS: null,
  stoodS: 0,
};

export function stepClockWatch(watch: ClockWatch, seen: ClockSeen): ClockWatch {
  const { timeS, hostTimeS, unbroken } = seen;
  if (hostTimeS === null) {
    return { ...watch, boardS: timeS, hostS: null, movedAtHostS: null, stoodS: 0 };
  }
  const moved = timeS > watch.boardS + LEAST_TICK_S;
  const anew = moved || !unbroken || watch.movedAtHostS === null;
  const movedAtHostS = anew ? hostTimeS : (watch.movedAtHostS ?? hostTimeS);
  const gives = unbroken && moved && !isBurst(watch, timeS, hostTimeS);
  const stepsS = gives ? stepsAfterS(watch, hostTimeS - timeS) : watch.stepsS;
  const looked = gives ? look(watch, hostTimeS, hostTimeS - timeS - stepsS) : watch;
  // Field by field: this runs at every tick.
  return {
    first: looked.first,
    latest: looked.latest,
    best: looked.best,
    heardS: looked.heardS,
    stepsS,
    aheadS: gives
      ? 0
      : watch.aheadS + Math.max(0, (watch.hostS ?? hostTimeS) - watch.boardS - hostTimeS + timeS),
    worstOffRatio: looked.worstOffRatio,
    offAtMostRatio: looked.offAtMostRatio,
    looks: looked.looks,
    comparedS: looked.comparedS,
    longestGapS: unbroken ? longestGapAt(watch, hostTimeS) : watch.longestGapS,
    boardS: timeS,
    hostS: hostTimeS,
    heardAtHostS: unbroken ? hostTimeS : watch.heardAtHostS,
    movedAtHostS,
    stoodS: hostTimeS - movedAtHostS,
  };
}

/** Frames that waited in a queue come at once. The first of them has the longest delay. */
const isBurst = ({ boardS, hostS }: ClockWatch, timeS: number, hostTimeS: number): boolean =>
  hostS !== null && (hostTimeS - hostS) * BURST_RATIO < timeS - boardS;

const longestGapAt = ({ heardAtHostS, longestGapS }: ClockWatch, hostTimeS: number): number =>
  heardAtHostS === null ? 0 : Math.max(longestGapS, hostTimeS - heardAtHostS);

/**
 * A step back after a gap or burst is a host that slept, and a step ahead after a stand-still,
 * which has an alarm of its own, is that: both join the steps before them.
 */
function stepsAfterS(
  { aheadS, stoodS, stepsS, latest, best }: ClockWatch,
  offsetS: number,
): number {
  const known = best ?? latest.at(-1);
  if (known === undefined) return stepsS;
  const byS = offsetS - stepsS - known.offsetS;
  if (aheadS >= STEP_S && byS < -STEP_S) return stepsS - Math.min(-byS, aheadS);
  return stoodS >= STEP_S && byS > STEP_S ? stepsS + Math.min(byS, stoodS) : stepsS;
}

type Looked = Pick<
  ClockWatch,
  | 'first'
  | 'latest'
  | 'best'
  | 'heardS'
  | 'worstOffRatio'
  | 'offAtMostRatio'
  | 'looks'
  | 'comparedS'
>;

function look(watch: ClockWatch, hostTimeS: number, offsetS: number): Looked {
  const { first, latest, worstOffRatio, offAtMostRatio, looks, comparedS } = watch;
  const better = watch.best === null || offsetS < watch.best.offsetS;
  const best = better ? { atHostS: hostTimeS, offsetS } : watch.best;
  const heardS = watch.heardS + hostTimeS - (watch.hostS ?? hostTimeS);
  if (heardS < LOOK_S || best === null) {
    return { first, latest, best, heardS, worstOffRatio, offAtMostRatio, looks, comparedS };
  }
  const shown = latest.map((one) => offRatio(one, best, -DELAY_S));
  return {
    first: first ?? best,
    latest: [...latest.slice(1 - LATEST), best],
    best: null,
    heardS: 0,
    worstOffRatio: Math.max(worstOffRatio, ...shown, first ? offRatio(first, best, -DELAY_S) : 0),
    offAtMostRatio: first ? offRatio(first, best, DELAY_S) : offAtMostRatio,
    looks: looks + 1,
    comparedS: first ? best.atHostS - first.atHostS : 0,
  };
}

/** By how much the clocks differ between two looks, as a share; at least zero. */
function offRatio(from: Look, to: Look, delayS: number): number {
  const differenceS = Math.abs(to.offsetS - from.offsetS) + delayS;
  return Math.max(0, differenceS) / Math.max(LOOK_S, to.atHostS - from.atHostS);
}
