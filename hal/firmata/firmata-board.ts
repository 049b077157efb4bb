/**
 * The real board: implements the contract of hal/board.ts over a line to our firmware by joining
 * the link, the frames and the outputs. Outputs go only to a board whose limits are in force.
 * Outputs that cannot be sent now are dropped, never sent later. After a lost link nothing resumes
 * by itself: the controller's latched alarm holds the job, and everything it writes then is safe.
 */
import {
  filter,
  firstValueFrom,
  map,
  merge,
  type Observable,
  type SchedulerLike,
  Subject,
  scan,
  skipWhile,
  takeUntil,
  tap,
  timer,
} from 'rxjs';
import { type Frame, HARDWARE_BOARD, type Outputs } from '../../src/core/frame.ts';
import { type Board, BoardClosedError, type BoardIdentity } from '../board.ts';
import { nowS } from './clock.ts';
import type { Connection } from './connection.ts';
import { type Problem, problemIn } from './errors.ts';
import { type Acting, actsSafely } from './frame-decoder.ts';
import { type BareFrame, createFrameSource, type HeardFrame } from './frame-source.ts';
import { hostChecks } from './host-checks.ts';
import type { Limits } from './limits.ts';
import type { OpenLine } from './line.ts';
import { createLineSource } from './line-source.ts';
import { type LinkEvent, linkTo } from './link.ts';
import { encodeOutputs, laterSequence, safeMessage, sequenceAfter } from './outputs-message.ts';
import { FIRMWARE_NAME, FIRMWARE_VERSION, TRIP_BITS } from './protocol.ts';
import type { SignalDriver } from './signals.ts';

export interface FirmataBoardOptions {
  /** A new line for every call. */
  readonly openLine: OpenLine;
  readonly portName: string;
  readonly scheduler: SchedulerLike;
  /** False where the board's time is not real time, as on an emulated board with a slowed clock. */
  readonly comparesClocks?: boolean;
  readonly tickS: number;
  readonly limits: Limits;
  readonly onNotice?: (words: string) => void;
  /** Receives with every frame what the board reports its pins are doing. */
  readonly onActing?: (acting: Acting) => void;
}

export type OpenedBoard =
  | { readonly ok: true; readonly board: Board }
  | { readonly ok: false; readonly problem: Problem };

/** Time for the end of the lease to take effect. */
const LEASE_MARGIN_MS = 100;
/** Two frames, because the first may have been sampled before the message arrived. */
const SAFE_FRAMES = 2;
const MS_PER_S = 1000;

interface State {
  /** Set even before the limits are in force. */
  connection: Connection | null;
  /** The limits are in force. */
  usable: boolean;
  signals: SignalDriver | null;
  /** Of the last outputs sent. */
  sequence: number;
  lastTimeS: number;
  closed: boolean;
}

const NO_LINK = { connection: null, usable: false, signals: null };

export async function openFirmataBoard(options: FirmataBoardOptions): Promise<OpenedBoard> {
  const { scheduler, tickS, comparesClocks = true, onNotice = () => {} } = options;
  const { line$, released } = createLineSource(options.openLine, scheduler);
  const checks$ = hostChecks(tickS, scheduler);
  const source = createFrameSource(tickS, nowS(scheduler), comparesClocks);
  const state: State = { ...NO_LINK, sequence: 0, lastTimeS: 0, closed: false };
  const events$ = new Subject<LinkEvent>();
  const ended$ = new Subject<void>();
  const link$ = linkTo({ ...options, line$, checks$, source, onNotice });
  link$
    .pipe(
      tap((event) => follow(state, event)),
      takeUntil(ended$),
    )
    .subscribe(events$);
  try {
    await firstValueFrom(events$.pipe(filter(({ kind }) => kind === 'usable')));
  } catch (error) {
    await released();
    return { ok: false, problem: problemIn(error) };
  }
  const heard$ = events$.pipe(
    filter((event) => event.kind === 'frame'),
    map(({ heard }) => heard),
  );
  const mute$ = checks$.pipe(
    filter(({ justBack }) => !justBack),
    map(({ atS }) => source.mute(atS)),
    filter((frame) => frame !== null),
    takeUntil(ended$),
  );
  heard$.subscribe(({ acting }) => options.onActing?.(acting));
  const bare$ = merge(heard$.pipe(map(({ frame }) => frame)), mute$);
  const end = async (): Promise<void> => {
    state.closed = true;
    await settleSafely(state, heard$, options);
    ended$.next();
    await released();
  };
  return { ok: true, board: boardOf(state, framesOf(state, bare$), options, end) };
}

function follow(state: State, event: LinkEvent): void {
  if (event.kind === 'down') Object.assign(state, NO_LINK);
  if (event.kind === 'connected') [state.connection, state.usable] = [event.connection, false];
  if (event.kind !== 'usable') return;
  [state.signals, state.usable] = [event.signals, true];
  // The board takes only what is newer than its last, be it another host's.
  state.sequence = laterSequence(state.sequence, event.taken);
}

/** Hot. The first frame waits for the first listener, so subscribing after opening misses none. */
function framesOf(state: State, bare$: Observable<BareFrame>): Observable<Frame> {
  const frames$ = new Subject<Frame>();
  bare$
    .pipe(
      tap(({ timeS }) => {
        state.lastTimeS = timeS;
      }),
      skipWhile(() => !frames$.observed),
      filter(() => !state.closed),
      map((frame, sequence) => ({ sequence, ...frame })),
    )
    .subscribe(frames$);
  return frames$.asObservable();
}

function boardOf(
  state: State,
  frames$: Observable<Frame>,
  options: FirmataBoardOptions,
  end: () => Promise<void>,
): Board {
  let ended: Promise<void> | null = null;
  return {
    identity: identityOf(options),
    frames$,
    write: (outputs) => {
      if (state.closed) throw new BoardClosedError();
      writeOutputs(state, outputs);
    },
    makeSafe: () => {
      if (!state.closed) sendSafe(state);
    },
    close: () => {
      ended ??= end();
      return ended;
    },
  };
}

function sendSafe(state: State): void {
  state.sequence = sequenceAfter(state.sequence);
  state.connection?.send(safeMessage(state.sequence));
}

function writeOutputs(state: State, outputs: Outputs): void {
  const { connection, usable } = state;
  if (connection === null) return;
  // Until a board has confirmed its limits it gets only the safe message.
  if (!usable) sendSafe(state);
  else {
    state.sequence = sequenceAfter(state.sequence);
    connection.send(encodeOutputs(outputs, state.sequence));
  }
  state.signals?.show(outputs, state.lastTimeS);
}

/** Waits until the board reports the safe state or its lease has ended by itself. */
async function settleSafely(
  state: State,
  heard$: Observable<HeardFrame>,
  { scheduler, limits }: FirmataBoardOptions,
): Promise<void> {
  if (state.connection === null) return;
  sendSafe(state);
  const safe$ = heard$.pipe(
    scan((inARow, { acting }) => (actsSafely(acting) ? inARow + 1 : 0), 0),
    filter((inARow) => inARow >= SAFE_FRAMES),
  );
  await firstValueFrom(merge(safe$, timer(limits.leaseMs + LEASE_MARGIN_MS, scheduler)));
}

function identityOf({ portName, tickS, limits }: FirmataBoardOptions): BoardIdentity {
  return {
    kind: HARDWARE_BOARD,
    serial: portName,
    firmware: `${FIRMWARE_NAME} ${FIRMWARE_VERSION.major}.${FIRMWARE_VERSION.minor}`,
    tickS,
    leaseS: limits.leaseMs / MS_PER_S,
    protection: ['lease', ...TRIP_BITS],
  };
}
