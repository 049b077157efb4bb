/**
 * One connection to a board, from an open line to a firmware that answered: asks for version and
 * name, waits for johnny-five with a deadline of its own, and says by name what went wrong. Which
 * firmware will do is for the caller. A lost connection is never mended: close it, make another.
 */
import type five from 'johnny-five';
import { after, type HostClock } from './clock.ts';
import { type Outcome, type Problem, ProblemError, problemOf, refuse } from './errors.ts';
import { createFirmataHost, type Firmata, type FirmataHost } from './firmata-host.ts';
import type { Line, OpenLine } from './line.ts';
import { SYSEX_END, SYSEX_START, UNIT_SYSEX } from './protocol.ts';
import { createTransport, type Transport } from './transport.ts';
import { type Receive, receiveUnitMessages } from './unit-messages.ts';

export interface FirmwareSeen {
  readonly name: string;
  readonly major: number;
  readonly minor: number;
}

export interface Connection {
  readonly board: five.Board;
  readonly io: Firmata;
  readonly firmware: FirmwareSeen;
  /** Sends one of the unit's messages: kind, fields and check. */
  readonly send: (message: readonly number[]) => void;
  readonly droppedRuns: () => number;
  readonly close: () => Promise<void>;
}

export interface ConnectionWish {
  readonly openLine: OpenLine;
  readonly clock: HostClock;
  readonly samplingIntervalMs: number;
  /** Null where this firmware will do. */
  readonly judge: (firmware: FirmwareSeen) => Problem | null;
  readonly receive: Receive;
  /** The line is lost after the connection was made; once. */
  readonly onLost: (problem: Problem) => void;
  readonly onNotice: (words: string) => void;
  /** Ends the attempt. */
  readonly signal: AbortSignal;
}

/** A board that restarts on opening may sit in its boot loader for two seconds. */
const DEADLINE_S = 5;
const ASK_EVERY_S = 0.5;
const CLOSING_S = 2;
const QUESTION = Buffer.from([0xf9, SYSEX_START, 0x79, SYSEX_END]);

export async function connect(wish: ConnectionWish): Promise<Outcome<Connection>> {
  const opened = await lineOf(wish.openLine);
  if (!opened.ok) return opened;
  let lost = (_: Problem): void => {};
  const transport = createTransport(opened.value, {
    onLost: (why) => lost(problemOf('port-gone', why)),
    onUndigested: (error) => wish.onNotice(`A message was dropped: ${String(error)}`),
  });
  const host = createFirmataHost(transport, wish.samplingIntervalMs, (said) =>
    wish.onNotice(`The Firmata driver reports: ${wordsOf(said)}`),
  );
  const forget = receiveUnitMessages(host.io, wish.receive);
  const close = async (): Promise<void> => {
    forget();
    host.dispose();
    await closedInTime(transport, wish.clock);
  };
  const problem = await new Promise<Problem | null>((resolve) => {
    lost = awaitReady(host, transport, wish, resolve);
    transport.start();
    transport.write(QUESTION);
  });
  const firmware = firmwareOf(host.io);
  const unfit = problem ?? wish.judge(firmware);
  if (unfit !== null) {
    await close();
    return { ok: false, problem: unfit };
  }
  lost = wish.onLost;
  const send = (message: readonly number[]): void => {
    host.io.sysexCommand([UNIT_SYSEX, ...message]);
  };
  const { board, io } = host;
  return {
    ok: true,
    value: { board, io, firmware, send, droppedRuns: transport.droppedRuns, close },
  };
}

/** A driver that hangs on closing must not keep the program from ending. */
function closedInTime(transport: Transport, clock: HostClock): Promise<void> {
  return new Promise((resolve) => {
    const stopWaiting = after(clock, CLOSING_S, resolve);
    transport.close().then(() => {
      stopWaiting();
      resolve();
    });
  });
}

async function lineOf(openLine: OpenLine): Promise<Outcome<Line>> {
  try {
    return { ok: true, value: await openLine() };
  } catch (error) {
    if (error instanceof ProblemError) return { ok: false, problem: error.problem };
    return refuse('port-failed', String(error));
  }
}

/** Resolves with null when the board is ready; leaves no timer. Gives what ends it before that. */
function awaitReady(
  { io, board }: FirmataHost,
  transport: Transport,
  { clock, judge, signal }: ConnectionWish,
  resolve: (problem: Problem | null) => void,
): (problem: Problem) => void {
  const stopAsking = clock.every(ASK_EVERY_S, () => {
    if (io.firmware.name === undefined) transport.write(QUESTION);
  });
  const finish = (problem: Problem | null): void => {
    stopAsking();
    stopWaiting();
    signal.removeEventListener('abort', abort);
    resolve(problem);
  };
  const abort = (): void => finish(problemOf('no-answer', 'The attempt was ended.'));
  const stopWaiting = after(clock, DEADLINE_S, () => {
    const unfit = io.firmware.name === undefined ? null : judge(firmwareOf(io));
    finish(unfit ?? problemOf('no-answer', whatCame(transport)));
  });
  signal.addEventListener('abort', abort);
  if (signal.aborted) abort();
  board.on('ready', () => finish(null));
  return finish;
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
