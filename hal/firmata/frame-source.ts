/**
 * Produces the frames: one for every frame message of the board, and one per tick on the host's
 * clock when none comes. It assigns times that never fall and collects what was damaged or missing
 * in between. It sends nothing, starts no timer, and leaves numbering to the board.
 */
import { type Frame, NEVER_HEARD } from '../../src/core/frame.ts';
import { startOfTime, type TimeLine, timeOfFrame, timeOfMuteFrame } from './board-time.ts';
import {
  type Acting,
  type Counters,
  decodeFrame,
  type FrameFields,
  readFrame,
} from './frame-decoder.ts';

/** A frame without its sequence number, which its publisher adds. */
export type BareFrame = Omit<Frame, 'sequence'>;

export interface HeardFrame {
  readonly frame: BareFrame;
  readonly acting: Acting;
  /** The board has restarted within this connection and has lost everything it was sent. */
  readonly restarted: boolean;
}

export interface FrameSource {
  /** Takes a frame message's body; returns null when it is malformed, which counts as damage. */
  readonly hear: (body: readonly number[], hostS: number) => HeardFrame | null;
  /** The mute frame that is due by now, or null. */
  readonly mute: (hostS: number) => BareFrame | null;
  /** Records messages that arrived damaged. */
  readonly damage: (messages: number) => void;
  /** Makes the next frame the first of a connection: nothing before it counts. */
  readonly startConnection: (hostS: number) => void;
}

type Measured = Pick<Frame, 'sampledAtS' | 'counts' | 'switches' | 'ladder' | 'trips'>;

const NOTHING_YET: Measured = { sampledAtS: 0, ...NEVER_HEARD };

const MUTE_AFTER_TICKS = 1.5;
/** The host's own delays: timers, and bytes queued in the operating system. */
const ALLOWANCE_S = 0.01;

interface State {
  time: TimeLine;
  last: Measured;
  counters: Counters;
  freshConnection: boolean;
  /** Damaged messages since the board's last frame; they explain as many missing frames. */
  spoilt: number;
  damagePending: boolean;
  muteDueS: number;
  /** Whether a frame carries the time at which the host heard it. */
  readonly comparesClocks: boolean;
}

export function createFrameSource(
  tickS: number,
  openedS: number,
  comparesClocks = true,
): FrameSource {
  const patienceS = MUTE_AFTER_TICKS * tickS + ALLOWANCE_S;
  const state: State = {
    time: startOfTime(openedS),
    last: NOTHING_YET,
    counters: null,
    freshConnection: true,
    spoilt: 0,
    damagePending: false,
    muteDueS: openedS + patienceS,
    comparesClocks,
  };
  const damage = (messages: number): void => {
    // Damage before the first frame of a connection is the noise of plugging in.
    if (state.freshConnection) return;
    state.spoilt += messages;
    state.damagePending ||= messages > 0;
  };
  return {
    hear: (body, hostS) => {
      const fields = readFrame(body);
      if (fields === null) {
        damage(1);
        return null;
      }
      state.muteDueS = hostS + patienceS;
      return heardFrame(state, fields, hostS);
    },
    mute: (hostS) => {
      if (hostS < state.muteDueS) return null;
      // A host that was away itself owes one frame, not every frame it missed.
      state.muteDueS = Math.max(state.muteDueS + tickS, hostS + tickS / 2);
      return muteFrame(state, hostS);
    },
    damage,
    startConnection: (hostS) => {
      state.muteDueS = hostS + patienceS;
      state.counters = null;
      state.freshConnection = true;
      state.spoilt = 0;
    },
  };
}

function heardFrame(state: State, fields: FrameFields, hostS: number): HeardFrame {
  const timed = timeOfFrame(state.time, fields.timeMs, hostS);
  const restarted = timed.restarted && !state.freshConnection;
  const { counters, sample } = decodeFrame(restarted ? null : state.counters, fields);
  const { counts, switches, ladder, trips, pressed, missing, hostDamaged, acting } = sample;
  const { timeS } = timed;
  // No frame shows what a board did while it restarted.
  const gap = restarted || missing > state.spoilt;
  const damaged = takeDamage(state) || hostDamaged;
  state.time = timed.line;
  state.counters = counters;
  state.freshConnection = false;
  state.spoilt = 0;
  state.last = { sampledAtS: timeS, counts, switches, ladder, trips };
  const frame: BareFrame = {
    ...state.last,
    timeS,
    hostTimeS: state.comparesClocks ? hostS : null,
    link: 'up',
    pressed,
    damaged,
    gap,
  };
  return { frame, acting, restarted };
}

function muteFrame(state: State, hostS: number): BareFrame {
  const { line, timeS } = timeOfMuteFrame(state.time, hostS);
  state.time = line;
  const damaged = takeDamage(state);
  return {
    ...state.last,
    timeS,
    hostTimeS: state.comparesClocks ? hostS : null,
    link: 'mute',
    pressed: [],
    damaged,
    gap: false,
  };
}

function takeDamage(state: State): boolean {
  const pending = state.damagePending;
  state.damagePending = false;
  return pending;
}
