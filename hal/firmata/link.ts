/**
 * The link to our firmware as one stream: a connection, agreement on the limits, then frames until
 * the line is lost or silent. A lost link is retried a second later for as long as it has a
 * subscriber. Only the first connection may fail for good. firmata-board.ts decides what a lost
 * link means for frames and outputs.
 */
import {
  catchError,
  concat,
  defer,
  exhaustMap,
  filter,
  fromEvent,
  ignoreElements,
  map,
  merge,
  mergeMap,
  type Observable,
  of,
  retry,
  type SchedulerLike,
  share,
  startWith,
  switchMap,
  tap,
  throwError,
  timer,
} from 'rxjs';
import { nowS } from './clock.ts';
import { type Connection, connect, type FirmwareSeen } from './connection.ts';
import { type Problem, type ProblemCode, problemIn, problemOf } from './errors.ts';
import type { FrameSource, HeardFrame } from './frame-source.ts';
import { type HostCheck, silence } from './host-checks.ts';
import { agreeOnLimits, type Limits } from './limits.ts';
import type { Line } from './line.ts';
import {
  type Decoded,
  decodeFields,
  FIRMWARE_NAME,
  FIRMWARE_VERSION,
  KINDS,
  REFUSAL_LAYOUT,
  REFUSALS,
} from './protocol.ts';
import { createSignals, type SignalDriver } from './signals.ts';

export type LinkEvent =
  | { readonly kind: 'down' }
  /** The board has no limits in force: not yet, or no longer because it has restarted. */
  | { readonly kind: 'connected'; readonly connection: Connection }
  /** The limits are in force. Nothing is displayed yet. `taken` numbers the board's last outputs. */
  | { readonly kind: 'usable'; readonly signals: SignalDriver; readonly taken: number }
  | { readonly kind: 'frame'; readonly heard: HeardFrame };

export interface LinkOptions {
  readonly line$: Observable<Line>;
  readonly scheduler: SchedulerLike;
  readonly tickS: number;
  readonly limits: Limits;
  readonly source: FrameSource;
  readonly checks$: Observable<HostCheck>;
  readonly onNotice: (words: string) => void;
}

const RETRY_MS = 1000;
/** Silence after which the connection is abandoned. */
const SILENCE_S = 1;
const MS_PER_S = 1000;

function judgeFirmware({ name, major, minor }: FirmwareSeen): Problem | null {
  if (name !== FIRMWARE_NAME) return problemOf('wrong-firmware', `It calls itself "${name}".`);
  if (major === FIRMWARE_VERSION.major) return null;
  const { major: wanted } = FIRMWARE_VERSION;
  return problemOf('wrong-version', `It is ${major}.${minor}; version ${wanted}.x is needed.`);
}

/** Errors only when the first connection fails; never completes. */
export function linkTo(options: LinkOptions): Observable<LinkEvent> {
  const { scheduler, tickS, onNotice } = options;
  const samplingIntervalMs = tickS * MS_PER_S;
  return defer(() => {
    let stage: 'first' | 'usable' | 'again' = 'first';
    /** Why the last attempt failed. Each reason is reported once. */
    let reported: ProblemCode | null = null;
    const again = (error: unknown): Observable<number> => {
      if (stage === 'first') throw error;
      const { code, words, advice } = problemIn(error);
      if (stage === 'again' && code !== reported) {
        onNotice(`${words} ${advice}`);
        reported = code;
      }
      stage = 'again';
      return timer(RETRY_MS, scheduler);
    };
    return connect({ ...options, samplingIntervalMs, judge: judgeFirmware }).pipe(
      switchMap((connection) => sessionOn(connection, options)),
      tap(({ kind }) => {
        if (kind === 'usable') [stage, reported] = ['usable', null];
      }),
      retry({ delay: again }),
    );
  });
}

/** Ends with an error when the line is lost. */
function sessionOn(connection: Connection, options: LinkOptions): Observable<LinkEvent> {
  const remarks$ = connection.messages$.pipe(
    tap((message) => remark(message, options)),
    ignoreElements(),
  );
  return merge(connection.lost$, remarks$, limitsAndFrames(connection, options)).pipe(
    catchError((error: unknown) => {
      options.onNotice(`The link to the board is lost. ${problemIn(error).words}`);
      return concat(
        of<LinkEvent>({ kind: 'down' }),
        throwError(() => error),
      );
    }),
  );
}

/**
 * Limits first, and again whenever the board has lost them: after a restart, or when its copy was
 * spoilt. Frames once the limits are in force.
 */
function limitsAndFrames(connection: Connection, options: LinkOptions): Observable<LinkEvent> {
  const { source, scheduler, checks$ } = options;
  let begun = false;
  const heard$ = bodiesOf(connection, KINDS.frame).pipe(
    filter(() => begun),
    tap(() => source.damage(connection.takeDroppedRuns())),
    map((body) => source.hear(body, nowS(scheduler))),
    filter((heard) => heard !== null),
    share(),
  );
  const lost$ = merge(
    // A restarted board reports its version unprompted.
    fromEvent(connection.io, 'reportversion'),
    heard$.pipe(filter(({ restarted, acting }) => restarted || !acting.hostLimits)),
  );
  const limits$ = lost$.pipe(
    startWith(null),
    // While the limits are being agreed on, they are resent anyway.
    exhaustMap(() => agreement(connection, options)),
    tap(({ kind }) => {
      if (kind !== 'usable' || begun) return;
      begun = true;
      source.startConnection(nowS(scheduler));
    }),
    switchMap((event) =>
      event.kind === 'usable'
        ? merge(of(event), silence(SILENCE_S, checks$, heard$, scheduler))
        : of(event),
    ),
  );
  return merge(limits$, heard$.pipe(map((heard): LinkEvent => ({ kind: 'frame', heard }))));
}

/** Sends the limits; completes when they are in force. */
function agreement(
  connection: Connection,
  { limits, scheduler, tickS }: LinkOptions,
): Observable<LinkEvent> {
  const { board, io, send } = connection;
  const reports$ = bodiesOf(connection, KINDS.limitsReport);
  return agreeOnLimits(limits, send, reports$, scheduler).pipe(
    // Repeated, because a board that has just restarted has lost it.
    tap(() => io.setSamplingInterval(tickS * MS_PER_S)),
    map((taken): LinkEvent => ({ kind: 'usable', signals: createSignals(board, send), taken })),
    startWith<LinkEvent>({ kind: 'connected', connection }),
  );
}

const bodiesOf = ({ messages$ }: Connection, wanted: number): Observable<readonly number[]> =>
  messages$.pipe(
    mergeMap((message) => (message.ok && message.kind === wanted ? [message.body] : [])),
  );

/** Handles what is neither a frame nor an answer: a refusal is reported, the rest is damage. */
function remark(message: Decoded, { source, onNotice }: LinkOptions): void {
  if (message.ok && (message.kind === KINDS.frame || message.kind === KINDS.limitsReport)) return;
  if (!message.ok || message.kind !== KINDS.refusal) {
    source.damage(1);
    return;
  }
  const reason = REFUSALS[decodeFields(REFUSAL_LAYOUT, message.body)?.reason ?? -1];
  // The board counts a damaged message; it shows in the next frame.
  if (reason !== 'bad-checksum') onNotice(`The board refused a message: ${reason ?? 'unknown'}.`);
}
