/**
 * One connection to a board as a stream: an open line, the questions for version and name, and the
 * connection once johnny-five is ready on a firmware that will do. What goes wrong until then is an
 * error with a name; so is a deadline. Whoever leaves the stream lets go of the line. A lost
 * connection is never mended: subscribe again for another one.
 */
import type five from 'johnny-five';
import {
  concatWith,
  defer,
  finalize,
  ignoreElements,
  interval,
  map,
  merge,
  NEVER,
  Observable,
  type SchedulerLike,
  Subject,
  startWith,
  switchMap,
  take,
  takeWhile,
  tap,
  timeout,
} from 'rxjs';
import { type Problem, ProblemError, problemOf } from './errors.ts';
import { createFirmataHost, type Firmata, type FirmataHost } from './firmata-host.ts';
import type { Line } from './line.ts';
import { type Decoded, openMessage, SYSEX_END, SYSEX_START, UNIT_SYSEX } from './protocol.ts';
import { createTransport, type Transport } from './transport.ts';
import { receiveUnitMessages } from './unit-messages.ts';

export interface FirmwareSeen {
  readonly name: string;
  readonly major: number;
  readonly minor: number;
}

export interface Connection {
  readonly board: five.Board;
  readonly io: Firmata;
  readonly firmware: FirmwareSeen;
  /** The unit's messages from the board. */
  readonly messages$: Observable<Decoded>;
  /** Errors with a ProblemError when the line is lost. */
  readonly lost$: Observable<never>;
  /** Sends one of the unit's messages: kind, fields and check. */
  readonly send: (message: readonly number[]) => void;
  /** Runs of bytes that made no message since this was last asked. */
  readonly takeDroppedRuns: () => number;
}

export interface ConnectionOptions {
  readonly line$: Observable<Line>;
  readonly scheduler: SchedulerLike;
  readonly samplingIntervalMs: number;
  /** Null where this firmware will do. */
  readonly judge: (firmware: FirmwareSeen) => Problem | null;
  readonly onNotice: (words: string) => void;
}

/** A board that restarts on opening may sit in its boot loader for two seconds. */
const DEADLINE_MS = 5000;
const ASK_EVERY_MS = 500;
const QUESTION = Buffer.from([0xf9, SYSEX_START, 0x79, SYSEX_END]);

/** Emits one connection; never completes. */
export const connect = (options: ConnectionOptions): Observable<Connection> =>
  options.line$.pipe(switchMap((line) => connectOn(line, options)));

function connectOn(line: Line, options: ConnectionOptions): Observable<Connection> {
  const { samplingIntervalMs, judge, onNotice } = options;
  return defer(() => {
    const transport = createTransport(line, (error) =>
      onNotice(`A message was dropped: ${String(error)}`),
    );
    const host = createFirmataHost(transport, samplingIntervalMs, (said) =>
      onNotice(`The Firmata driver reports: ${wordsOf(said)}`),
    );
    const messages$ = new Subject<Decoded>();
    const forget = receiveUnitMessages(host.io, (message) => messages$.next(openMessage(message)));
    const letGo = (): void => {
      forget();
      host.dispose();
      transport.release();
    };
    return ready(host, transport, options).pipe(
      map((): Connection => {
        const { board, io } = host;
        const firmware = firmwareOf(io);
        const unfit = judge(firmware);
        if (unfit !== null) throw new ProblemError(unfit);
        const send = (message: readonly number[]): void => {
          io.sysexCommand([UNIT_SYSEX, ...message]);
        };
        const { lost$, takeDroppedRuns } = transport;
        return { board, io, firmware, messages$, lost$, send, takeDroppedRuns };
      }),
      concatWith(NEVER),
      finalize(letGo),
    );
  });
}

/** Emits once, when johnny-five knows the board; errors when the line is lost or time is up before. */
function ready(
  { io, board }: FirmataHost,
  transport: Transport,
  { scheduler, judge }: ConnectionOptions,
): Observable<void> {
  const ready$ = new Observable<void>((subscriber) => {
    board.on('ready', () => subscriber.next());
  });
  const asking$ = defer(() => {
    transport.start();
    return interval(ASK_EVERY_MS, scheduler).pipe(
      startWith(0),
      takeWhile(() => io.firmware.name === undefined),
      tap(() => transport.write(QUESTION)),
      ignoreElements(),
    );
  });
  const giveUp = (): never => {
    const unfit = io.firmware.name === undefined ? null : judge(firmwareOf(io));
    throw new ProblemError(unfit ?? problemOf('no-answer', whatCame(transport)));
  };
  return merge(transport.lost$, ready$, asking$).pipe(
    take(1),
    timeout({ first: DEADLINE_MS, with: giveUp, scheduler }),
  );
}

function whatCame(transport: Transport): string {
  if (transport.receivedBytes() === 0) return 'Nothing came at all.';
  if (transport.messages() === 0) {
    return 'Bytes came, but none made sense: wrong baud rate or not our firmware.';
  }
  return 'It began to answer and did not finish.';
}

const firmwareOf = ({ firmware }: Firmata): FirmwareSeen => ({
  name: firmware.name ?? '',
  major: firmware.version?.major ?? 0,
  minor: firmware.version?.minor ?? 0,
});

/** johnny-five reports errors as events of its own or as errors; both may carry a message. */
function wordsOf(said: unknown): string {
  const message = (said as { readonly message?: unknown } | null)?.message;
  return typeof message === 'string' ? message : String(said);
}
