/**
 * The real board: the contract of hal/board.ts over a line to our firmware. It joins the link, the
 * frames and the outputs. Outputs go only to a board that has its limits, and to no other later:
 * what cannot be sent now is forgotten. After a lost link nothing is taken up again by itself; the
 * controller's latched alarm holds the job, and all that it writes then is safe.
 */
import { Subject } from 'rxjs';
import type { Frame, Outputs } from '../../src/core/frame.ts';
import { type Board, BoardClosedError, type BoardIdentity } from '../board.ts';
import { after, type HostClock } from './clock.ts';
import type { Connection } from './connection.ts';
import { type Problem, problemOf } from './errors.ts';
import { type Acting, actsSafely } from './frame-decoder.ts';
import { type BareFrame, createFrameSource } from './frame-source.ts';
import type { Limits } from './limits.ts';
import type { OpenLine } from './line.ts';
import { createLinkKeeper, type LinkKeeper } from './link-keeper.ts';
import { encodeOutputs, SAFE_MESSAGE } from './outputs-message.ts';
import {
  decodeFields,
  FIRMWARE_NAME,
  KINDS,
  openMessage,
  REFUSAL_LAYOUT,
  REFUSALS,
  TRIP_BITS,
} from './protocol.ts';
import { createSignals, type SignalDriver } from './signals.ts';

export interface FirmataBoardOptions {
  /** A new line for every call. */
  readonly openLine: OpenLine;
  readonly portName: string;
  readonly clock: HostClock;
  /** False where the board's time is not real, as that of an emulated one before a slowed clock. */
  readonly comparesClocks?: boolean;
  readonly tickS: number;
  readonly limits: Limits;
  readonly onNotice?: (words: string) => void;
  /** What the board reports that its pins do, with every frame. */
  readonly onActing?: (acting: Acting) => void;
}

export type OpenedBoard =
  | { readonly ok: true; readonly board: Board }
  | { readonly ok: false; readonly problem: Problem };

/** Silence after which the connection is given up. */
const SILENCE_S = 1;
/** A check of the host that came this late says that the host was away, not the board. */
const HOST_AWAY_S = 0.5;
/** Two frames, because the first may have been sampled before the message arrived. */
const SAFE_FRAMES = 2;
const MS_PER_S = 1000;

export async function openFirmataBoard(options: FirmataBoardOptions): Promise<OpenedBoard> {
  const state = startOf(options);
  const { clock, tickS, onNotice = () => {} } = options;
  const first: { readonly keeper: LinkKeeper; readonly problem: Problem | null } =
    await new Promise((resolve) => {
      const keeper = createLinkKeeper(
        {
          ...options,
          onNotice,
          onUsable: (connection) => meetBoard(state, connection, clock.nowS()),
          onLost: ({ words }) => {
            state.signals = null;
            onNotice(`The link to the board is lost. ${words}`);
          },
          onMessage: (message) => hear(state, keeper, message, clock.nowS(), options),
        },
        (problem) => resolve({ keeper, problem }),
      );
    });
  const { keeper, problem } = first;
  if (problem !== null) {
    await keeper.close();
    return { ok: false, problem };
  }
  const stopWatch = clock.every(tickS / 2, () => watch(state, keeper, tickS, clock.nowS()));
  return { ok: true, board: boardOf(state, keeper, options, stopWatch) };
}

interface State {
  readonly frames$: Subject<Frame>;
  readonly source: ReturnType<typeof createFrameSource>;
  signals: SignalDriver | null;
  sequence: number;
  closed: boolean;
  lastTimeS: number;
  /** Since when silence counts, beside the last frame. */
  metAtS: number;
  watchedAtS: number;
  /** The last check came late, because the host had other things to do. */
  wasAway: boolean;
  connection: Connection | null;
  droppedRuns: number;
  /** While closing: hears whether the board acts safely. */
  onActing: ((safely: boolean) => void) | null;
}

function startOf({ clock, tickS, comparesClocks = true }: FirmataBoardOptions): State {
  const nowS = clock.nowS();
  return {
    frames$: new Subject<Frame>(),
    source: createFrameSource(tickS, nowS, comparesClocks),
    signals: null,
    sequence: 0,
    closed: false,
    lastTimeS: 0,
    metAtS: nowS,
    watchedAtS: nowS,
    wasAway: false,
    connection: null,
    droppedRuns: 0,
    onActing: null,
  };
}

/** Also met again when it has started anew within a connection; then nothing seen so far is forgotten. */
function meetBoard(state: State, connection: Connection, nowS: number): void {
  state.metAtS = nowS;
  if (connection !== state.connection) {
    state.connection = connection;
    state.droppedRuns = connection.droppedRuns();
    state.source.startConnection(nowS);
  }
  state.signals = createSignals(connection.board, connection.send);
}

function hear(
  state: State,
  keeper: LinkKeeper,
  message: readonly number[],
  nowS: number,
  { onNotice = () => {}, onActing = () => {} }: FirmataBoardOptions,
): void {
  const opened = openMessage(message);
  const { kind, body } = opened.ok ? opened : { kind: null, body: [] };
  if (kind === KINDS.limitsReport) keeper.hearLimits(body);
  else if (kind === KINDS.frame) hearFrame(state, keeper, body, nowS, onActing);
  else if (kind === KINDS.refusal) {
    const refusal = decodeFields(REFUSAL_LAYOUT, body);
    const reason = REFUSALS[refusal?.reason ?? -1];
    // A damaged message is counted by the board and shows in the next frame.
    if (reason !== 'bad-checksum') onNotice(`The board refused a message: ${reason ?? 'unknown'}.`);
  } else state.source.damage(1);
}

function hearFrame(
  state: State,
  keeper: LinkKeeper,
  body: readonly number[],
  nowS: number,
  onActing: (acting: Acting) => void,
): void {
  const connection = keeper.current();
  if (connection === null || state.signals === null) return;
  const runs = connection.droppedRuns();
  state.source.damage(runs - state.droppedRuns);
  state.droppedRuns = runs;
  const heard = state.source.hear(body, nowS);
  if (heard === null) {
    state.source.damage(1);
    return;
  }
  if (heard.restarted) keeper.instruct();
  onActing(heard.acting);
  state.onActing?.(actsSafely(heard.acting));
  emit(state, heard.frame);
}

/** The first frame waits for the first listener: who subscribes after opening misses none. */
function emit(state: State, frame: BareFrame): void {
  state.lastTimeS = frame.timeS;
  const begun = state.sequence > 0 || state.frames$.observed;
  if (begun && !state.closed) state.frames$.next({ sequence: state.sequence++, ...frame });
}

function watch(state: State, keeper: LinkKeeper, tickS: number, nowS: number): void {
  const lateByS = nowS - state.watchedAtS;
  if (lateByS > HOST_AWAY_S) state.metAtS = nowS;
  state.watchedAtS = nowS;
  // A host that was away hears what waits for it before it calls the board mute, but only once.
  const wasAway = lateByS > tickS && !state.wasAway;
  state.wasAway = wasAway;
  if (wasAway) return;
  const frame = state.source.mute(nowS);
  if (frame !== null) emit(state, frame);
  const quietSinceS = Math.max(state.source.heardAtS(), state.metAtS);
  if (keeper.usable() !== null && nowS - quietSinceS > SILENCE_S) {
    keeper.lose(problemOf('no-answer', `Nothing came for ${SILENCE_S} s.`));
  }
}

function boardOf(
  state: State,
  keeper: LinkKeeper,
  options: FirmataBoardOptions,
  stopWatch: () => void,
): Board {
  let ended: Promise<void> | null = null;
  const end = async (): Promise<void> => {
    state.closed = true;
    await settleSafely(state, keeper, options);
    stopWatch();
    state.frames$.complete();
    await keeper.close();
  };
  return {
    identity: identityOf(options),
    frames$: state.frames$.asObservable(),
    write: (outputs) => {
      if (state.closed) throw new BoardClosedError();
      writeOutputs(state, keeper, outputs);
    },
    makeSafe: () => {
      if (!state.closed) keeper.current()?.send(SAFE_MESSAGE);
    },
    close: () => {
      ended ??= end();
      return ended;
    },
  };
}

function writeOutputs(state: State, keeper: LinkKeeper, outputs: Outputs): void {
  const connection = keeper.current();
  if (connection === null) return;
  // A board that has not confirmed its limits is told to be safe and nothing else.
  connection.send(keeper.usable() === null ? SAFE_MESSAGE : encodeOutputs(outputs));
  state.signals?.show(outputs, state.lastTimeS);
}

/** Until the board reports the safe state, or its lease has ended by itself. */
async function settleSafely(
  state: State,
  keeper: LinkKeeper,
  { clock, limits }: FirmataBoardOptions,
): Promise<void> {
  const connection = keeper.current();
  if (connection === null) return;
  connection.send(SAFE_MESSAGE);
  const leaseOverS = limits.leaseMs / MS_PER_S + 0.1;
  await new Promise<void>((resolve) => {
    const stopWaiting = after(clock, leaseOverS, resolve);
    let safeFrames = 0;
    state.onActing = (safely) => {
      safeFrames = safely ? safeFrames + 1 : 0;
      if (safeFrames < SAFE_FRAMES) return;
      stopWaiting();
      resolve();
    };
  });
  state.onActing = null;
}

function identityOf({ portName, tickS, limits }: FirmataBoardOptions): BoardIdentity {
  return {
    kind: 'bench board',
    serial: portName,
    firmware: `${FIRMWARE_NAME} 1.0`,
    tickS,
    leaseS: limits.leaseMs / MS_PER_S,
    protection: ['lease', ...TRIP_BITS],
  };
}
