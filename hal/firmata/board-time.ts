/**
 * One time line for the frames, in seconds from opening, made of the board's 32 bits of
 * milliseconds. It never falls: the board's counter wraps after 49.7 days, starts anew when the
 * board restarts, and is not there at all while the board is mute; the host's clock fills the gap.
 * Pure: the host's time is handed in.
 */
export interface TimeLine {
  /** The board's counter at its last frame; null while there was none. */
  readonly boardMs: number | null;
  readonly boardS: number;
  readonly hostS: number;
  /** The latest time given to any frame, mute ones included. */
  readonly lastS: number;
}

export interface Timed {
  readonly line: TimeLine;
  readonly timeS: number;
  /** The board's counter and the host's clock disagree: the board has started anew meanwhile. */
  readonly restarted: boolean;
}

const WRAP_MS = 2 ** 32;
const MS_PER_S = 1000;
/** More than a slow host or the drift of a resonator explains. */
const DISAGREE_S = 1;
/** Parts of the elapsed time by which the two clocks may differ: a ceramic resonator's, doubled. */
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
  // Behind the mute frames by a moment: hold. By more: go on from the last one, or time would stand.
  const anchoredS = timeS - boardS > DISAGREE_S ? timeS : boardS;
  return { line: { boardMs, boardS: anchoredS, hostS, lastS: timeS }, timeS, restarted };
}

/** The time of a frame that the host makes up because the board is mute. */
export function timeOfMuteFrame(
  before: TimeLine,
  hostS: number,
): { readonly line: TimeLine; readonly timeS: number } {
  const timeS = Math.max(before.boardS + hostS - before.hostS, before.lastS);
  return { line: { ...before, lastS: timeS }, timeS };
}
