/**
 * firmata-io and johnny-five on one transport, started and ended without a trace: no REPL, no
 * signal handler, no timer of theirs, and out of johnny-five's list of boards when done. When to
 * ask the board for its name, and when to give up, is for connection.ts.
 */
import firmata from 'firmata-io';
import five from 'johnny-five';
import type { Transport } from './transport.ts';

export type Firmata = firmata.Firmata;

export interface FirmataHost {
  readonly io: Firmata;
  readonly board: five.Board;
  /** Lets go of everything that johnny-five and firmata-io hold. */
  readonly dispose: () => void;
}

/** firmata-io asks for the version by a timer of its own; the connection asks by the host's clock. */
const VERSION_TIMEOUT_MS = 300;
/** The connection gives up long before. */
const JOHNNY_FIVE_TIMEOUT_MS = 60_000;

/** What johnny-five does not tell in its types. */
interface BoardInternals {
  timer: NodeJS.Timeout | null;
  register: { board: unknown; io: unknown }[];
  removeAllListeners: () => void;
}
interface BoardStatics {
  readonly cache: unknown[];
  readonly Pins: { readonly normalize: { readonly clear: () => void } };
}

export function createFirmataHost(
  transport: Transport,
  samplingIntervalMs: number,
  onError: (said: unknown) => void,
): FirmataHost {
  const io = new firmata.Firmata(transport, {
    reportVersionTimeout: VERSION_TIMEOUT_MS,
    samplingInterval: samplingIntervalMs,
  });
  clearTimeout(io.reportVersionTimeoutId);
  io.on('error', onError);
  const options = {
    io,
    repl: false,
    debug: false,
    sigint: false,
    timeout: JOHNNY_FIVE_TIMEOUT_MS,
  };
  const board = new five.Board(options);
  board.on('error', onError);
  return { io, board, dispose: () => dispose(io, board) };
}

function dispose(io: Firmata, board: five.Board): void {
  const internals = board as unknown as BoardInternals;
  const { cache, Pins } = five.Board as unknown as BoardStatics;
  clearTimeout(io.reportVersionTimeoutId);
  if (internals.timer !== null) clearTimeout(internals.timer);
  const at = cache.indexOf(board);
  if (at >= 0) cache.splice(at, 1);
  // johnny-five caches how pins are named by board; the cache fills again as needed.
  Pins.normalize.clear();
  // Its components stay in private tables for good; without these they hold no board.
  for (const component of internals.register) {
    component.board = null;
    component.io = null;
  }
  internals.register = [];
  internals.removeAllListeners();
  io.removeAllListeners();
}
