/**
 * A single time line for the frames, in seconds since opening, derived from the board's 32-bit
 * millisecond counter. It never falls. The counter wraps after 49.7 days, restarts with the board,
 * and is unavailable while the board is mute; the host's clock bridges these gaps. Pure: the caller
 * passes the host's time in.
 */
export interface TimeLine {
  /** The board's counter at its last frame; null before the first. */
  readonly boardMs: number | null;
  readonly boardS: number;
  readonly hostS: number;
  /** The latest time given to any frame, mute frames included. */
  readonly lastS: number;
}

export interface Timed {
  readonly line: TimeLine;
  readonly timeS: number;
  /** The board's counter and the host's clock disagree: the board has restarted in between. */
  readonly restarted: boolean;
}

const WRAP_MS = 2 ** 32;
const MS_PER_S = 1000;
/** A larger difference than a slow host or resonator drift explains. */
const DISAGREE_S = 1;
/**
 * Allowed difference between the two clocks, as a fraction of the elapsed time: twice a ceramic
 * resonator's.
 */
const DRIFT = 0.01;

export const startOfTime = (hostS: number): TimeLine => ({
  boardMs: null,
  boardS: 0,
  hostS,
  lastS: 0,
});

export function timeOfFrame(before: TimeLine, boardMs: number, hostS: number): Timed {
  const hostElapsedS = hostS - before.hostS;
  const elapsedS =
    before.boardMs === null
      ? hostElapsedS
      : ((boardMs - before.boardMs + WRAP_MS) % WRAP_MS) / MS_PER_S;
  const allowedS = DISAGREE_S + DRIFT * hostElapsedS;
  const restarted = Math.abs(elapsedS - hostElapsedS) > allowedS;
  const boardS = before.boardS + (restarted ? hostElapsedS : elapsedS);
  const timeS = Math.max(boardS, before.lastS);
  // A moment behind the mute frames: hold. Further behind: continue from the last frame, or time
  // would stand still.
  const anchoredS = timeS - boardS > DISAGREE_S ? timeS : boardS;
  return { line: { boardMs, boardS: anchoredS, hostS, lastS: timeS }, timeS, restarted };
}

/** The time of a frame that the host generates because the board is mute. */
export function timeOfMuteFrame(
  before: TimeLine,
  hostS: number,
): { readonly line: TimeLine; readonly timeS: number } {
  const timeS = Math.max(before.boardS + hostS - before.hostS, before.lastS);
  return { line: { ...before, lastS: timeS }, timeS };
}
