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
import { type Problem, type ProblemCode, ProblemError, problemOf } from './errors.ts';
import type { FrameSource, HeardFrame } from './frame-source.ts';
import { type Look, silentLooks } from './host-looks.ts';
import { agreeOnLimits, type Limits } from './limits.ts';
import type { Line } from './line.ts';
import {
  type Decoded,
  decodeFields,
  FIRMWARE_NAME,
  FIRMWARE_VERSION,
  KINDS,
  openMessage,
  REFUSAL_LAYOUT,
  REFUSALS,
} from './protocol.ts';

export type LinkEvent =
  | { readonly kind: 'down' }
  /** There is a board, and its limits are not in force: yet, or again after it has started anew. */
  | { readonly kind: 'met'; readonly connection: Connection }
  /** The limits are in force. */
  | { readonly kind: 'agreed'; readonly connection: Connection }
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

export function judgeFirmware({ name, major, minor }: FirmwareSeen): Problem | null {
  if (name !== FIRMWARE_NAME) return problemOf('wrong-firmware', `It calls itself "${name}".`);
  if (major === FIRMWARE_VERSION.major) return null;
  const { major: wanted } = FIRMWARE_VERSION;
  return problemOf('wrong-version', `It is ${major}.${minor}; version ${wanted}.x is needed.`);
}

/** Errors with a ProblemError when the first connection fails; never completes. */
export function linkTo(wish: LinkWish): Observable<LinkEvent> {
  const { line$, scheduler, tickS, onNotice } = wish;
  const samplingIntervalMs = tickS * MS_PER_S;
  return defer(() => {
    let everAgreed = false;
    /** What ended the last attempt, until one succeeds: said once. */
    let said: ProblemCode | null = null;
    let trying = true;
    return connect({ line$, scheduler, samplingIntervalMs, judge: judgeFirmware, onNotice }).pipe(
      switchMap((connection) => talkOn(connection, wish)),
      tap(({ kind }) => {
        if (kind !== 'agreed') return;
        [everAgreed, trying, said] = [true, false, null];
      }),
      retry({
        delay: (error: unknown) => {
          if (!everAgreed || !(error instanceof ProblemError)) return throwError(() => error);
          const { code, words, advice } = error.problem;
          if (trying && code !== said) {
            said = code;
            onNotice(`${words} ${advice}`);
          }
          trying = true;
          return timer(RETRY_MS, scheduler);
        },
      }),
    );
  });
}

/** From the limits to the loss of the line, which is an error. */
function talkOn(connection: Connection, wish: LinkWish): Observable<LinkEvent> {
  const { source, onNotice } = wish;
  const messages$ = connection.messages$.pipe(map(openMessage), share());
  const remarks$ = messages$.pipe(
    tap((message) => remark(message, source, onNotice)),
    ignoreElements(),
  );
  return merge(connection.lost$, remarks$, limitsAndFrames(connection, messages$, wish)).pipe(
    catchError((error: unknown) => {
      if (error instanceof ProblemError) {
        onNotice(`The link to the board is lost. ${error.problem.words}`);
      }
      return concat(
        of<LinkEvent>({ kind: 'down' }),
        throwError(() => error),
      );
    }),
  );
}

/** Limits first, and again whenever the board has started anew; frames from the first agreement on. */
function limitsAndFrames(
  connection: Connection,
  messages$: Observable<Decoded>,
  wish: LinkWish,
): Observable<LinkEvent> {
  const { source, scheduler, looks$ } = wish;
  let agreed = false;
  const heard$ = bodiesOf(messages$, KINDS.frame).pipe(
    filter(() => agreed),
    map((body) => hear(body, connection, wish)),
    filter((heard) => heard !== null),
    share(),
  );
  const restarts$ = merge(
    // A board reports its version unasked when it has started anew.
    fromEvent(connection.io, 'reportversion'),
    heard$.pipe(filter(({ restarted }) => restarted)),
  );
  const silent$ = silentLooks(looks$, heard$, SILENCE_S, scheduler).pipe(
    map(() => {
      throw new ProblemError(problemOf('no-answer', `Nothing came for ${SILENCE_S} s.`));
    }),
  );
  const limits$ = restarts$.pipe(
    startWith(null),
    // While the limits are being agreed on, they are sent again anyway.
    exhaustMap(() => agreement(connection, messages$, wish)),
    tap(({ kind }) => {
      if (kind !== 'agreed' || agreed) return;
      agreed = true;
      source.startConnection(nowS(scheduler));
    }),
    switchMap((event) => (event.kind === 'agreed' ? merge(of(event), silent$) : of(event))),
  );
  return merge(limits$, heard$.pipe(map((heard): LinkEvent => ({ kind: 'frame', heard }))));
}

/** Tells the board its limits; completes when they are in force. */
function agreement(
  connection: Connection,
  messages$: Observable<Decoded>,
  { limits, scheduler, tickS }: LinkWish,
): Observable<LinkEvent> {
  const reports$ = bodiesOf(messages$, KINDS.limitsReport);
  return agreeOnLimits(limits, connection.send, reports$, scheduler).pipe(
    // Again, because a board that has just started anew has forgotten it.
    tap(() => connection.io.setSamplingInterval(tickS * MS_PER_S)),
    map((): LinkEvent => ({ kind: 'agreed', connection })),
    startWith<LinkEvent>({ kind: 'met', connection }),
  );
}

const bodiesOf = (messages$: Observable<Decoded>, wanted: number): Observable<readonly number[]> =>
  messages$.pipe(
    filter((message) => message.ok && message.kind === wanted),
    map((message) => (message.ok ? message.body : [])),
  );

function hear(
  body: readonly number[],
  { takeDroppedRuns }: Connection,
  { source, scheduler }: LinkWish,
): HeardFrame | null {
  source.damage(takeDroppedRuns());
  const heard = source.hear(body, nowS(scheduler));
  if (heard === null) source.damage(1);
  return heard;
}

/** What is neither a frame nor an answer: a refusal is told, the rest is damage. */
function remark(message: Decoded, source: FrameSource, onNotice: (words: string) => void): void {
  const kind = message.ok ? message.kind : null;
  if (kind === KINDS.limitsReport || kind === KINDS.frame) return;
  if (!message.ok || kind !== KINDS.refusal) {
    source.damage(1);
    return;
  }
  const reason = REFUSALS[decodeFields(REFUSAL_LAYOUT, message.body)?.reason ?? -1];
  // A damaged message is counted by the board and shows in the next frame.
  if (reason !== 'bad-checksum') onNotice(`The board refused a message: ${reason ?? 'unknown'}.`);
}
