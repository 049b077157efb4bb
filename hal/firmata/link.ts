/**
 * The link to our firmware as one stream: a connection, its limits agreed, then frames until the
 * line is lost or silent, and a second later the next connection, for as long as somebody
 * subscribes. Only the first connection may fail for good. What a lost link means for frames and
 * outputs is for the board.
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
import { type Look, silence } from './host-looks.ts';
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
  /** There is a board, and its limits are not in force: yet, or again after it has started anew. */
  | { readonly kind: 'met'; readonly connection: Connection }
  /** The limits are in force. The board shows nothing yet. */
  | { readonly kind: 'agreed'; readonly signals: SignalDriver }
  | { readonly kind: 'frame'; readonly heard: HeardFrame };

export interface LinkWish {
  readonly line$: Observable<Line>;
  readonly scheduler: SchedulerLike;
  readonly tickS: number;
  readonly limits: Limits;
  readonly source: FrameSource;
  readonly looks$: Observable<Look>;
  readonly onNotice: (words: string) => void;
}

const RETRY_MS = 1000;
/** Silence after which the connection is given up. */
const SILENCE_S = 1;
const MS_PER_S = 1000;

function judgeFirmware({ name, major, minor }: FirmwareSeen): Problem | null {
  if (name !== FIRMWARE_NAME) return problemOf('wrong-firmware', `It calls itself "${name}".`);
  if (major === FIRMWARE_VERSION.major) return null;
  const { major: wanted } = FIRMWARE_VERSION;
  return problemOf('wrong-version', `It is ${major}.${minor}; version ${wanted}.x is needed.`);
}

/** Errors only when the first connection fails; never completes. */
export function linkTo(wish: LinkWish): Observable<LinkEvent> {
  const { scheduler, tickS, onNotice } = wish;
  const samplingIntervalMs = tickS * MS_PER_S;
  return defer(() => {
    let stage: 'first' | 'agreed' | 'again' = 'first';
    /** Why the last attempt failed, which is told once. */
    let told: ProblemCode | null = null;
    const again = (error: unknown): Observable<number> => {
      if (stage === 'first') throw error;
      const { code, words, advice } = problemIn(error);
      if (stage === 'again' && code !== told) {
        onNotice(`${words} ${advice}`);
        told = code;
      }
      stage = 'again';
      return timer(RETRY_MS, scheduler);
    };
    return connect({ ...wish, samplingIntervalMs, judge: judgeFirmware }).pipe(
      switchMap((connection) => talkOn(connection, wish)),
      tap(({ kind }) => {
        if (kind === 'agreed') [stage, told] = ['agreed', null];
      }),
      retry({ delay: again }),
    );
  });
}

/** From the limits to the loss of the line, which is an error. */
function talkOn(connection: Connection, wish: LinkWish): Observable<LinkEvent> {
  const remarks$ = connection.messages$.pipe(
    tap((message) => remark(message, wish)),
    ignoreElements(),
  );
  return merge(connection.lost$, remarks$, limitsAndFrames(connection, wish)).pipe(
    catchError((error: unknown) => {
      wish.onNotice(`The link to the board is lost. ${problemIn(error).words}`);
      return concat(
        of<LinkEvent>({ kind: 'down' }),
        throwError(() => error),
      );
    }),
  );
}

/** Limits first, and again whenever the board has started anew; frames once there are limits. */
function limitsAndFrames(connection: Connection, wish: LinkWish): Observable<LinkEvent> {
  const { source, scheduler, looks$ } = wish;
  let met = false;
  const heard$ = bodiesOf(connection, KINDS.frame).pipe(
    filter(() => met),
    tap(() => source.damage(connection.takeDroppedRuns())),
    map((body) => source.hear(body, nowS(scheduler))),
    filter((heard) => heard !== null),
    share(),
  );
  const restarts$ = merge(
    // A board reports its version unasked when it has started anew.
    fromEvent(connection.io, 'reportversion'),
    heard$.pipe(filter(({ restarted }) => restarted)),
  );
  const limits$ = restarts$.pipe(
    startWith(null),
    // While the limits are being agreed on, they are sent again anyway.
    exhaustMap(() => agreement(connection, wish)),
    tap(({ kind }) => {
      if (kind !== 'agreed' || met) return;
      met = true;
      source.startConnection(nowS(scheduler));
    }),
    switchMap((event) =>
      event.kind === 'agreed'
        ? merge(of(event), silence(SILENCE_S, looks$, heard$, scheduler))
        : of(event),
    ),
  );
  return merge(limits$, heard$.pipe(map((heard): LinkEvent => ({ kind: 'frame', heard }))));
}

/** Tells the board its limits; completes when they are in force. */
function agreement(
  connection: Connection,
  { limits, scheduler, tickS }: LinkWish,
): Observable<LinkEvent> {
  const { board, io, send } = connection;
  const reports$ = bodiesOf(connection, KINDS.limitsReport);
  return agreeOnLimits(limits, send, reports$, scheduler).pipe(
    // Again, because a board that has just started anew has forgotten it.
    tap(() => io.setSamplingInterval(tickS * MS_PER_S)),
    map((): LinkEvent => ({ kind: 'agreed', signals: createSignals(board, send) })),
    startWith<LinkEvent>({ kind: 'met', connection }),
  );
}

const bodiesOf = ({ messages$ }: Connection, wanted: number): Observable<readonly number[]> =>
  messages$.pipe(
    mergeMap((message) => (message.ok && message.kind === wanted ? [message.body] : [])),
  );

/** What is neither a frame nor an answer: a refusal is told, the rest is damage. */
function remark(message: Decoded, { source, onNotice }: LinkWish): void {
  if (message.ok && (message.kind === KINDS.frame || message.kind === KINDS.limitsReport)) return;
  if (!message.ok || message.kind !== KINDS.refusal) {
    source.damage(1);
    return;
  }
  const reason = REFUSALS[decodeFields(REFUSAL_LAYOUT, message.body)?.reason ?? -1];
  // A damaged message is counted by the board and shows in the next frame.
  if (reason !== 'bad-checksum') onNotice(`The board refused a message: ${reason ?? 'unknown'}.`);
}
