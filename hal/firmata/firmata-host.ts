/**
 * firmata-io and johnny-five on one transport, started and stopped without side effects: no REPL,
 * no signal handler, no timer of their own, and no entry left in johnny-five's list of boards.
 * connection.ts decides when to ask for the board's name and when to give up.
 */
import firmata from 'firmata-io';
import five from 'johnny-five';
import type { Transport } from './transport.ts';

export type Firmata = firmata.Firmata;

export interface FirmataHost {
  readonly io: Firmata;
  readonly board: five.Board;
  /** Releases everything that johnny-five and firmata-io hold. */
  readonly dispose: () => void;
}

/**
 * firmata-io requests the version on its own timer; the connection requests it on the host's clock.
 */
const VERSION_TIMEOUT_MS = 300;
/** The connection gives up long before this. */
const JOHNNY_FIVE_TIMEOUT_MS = 60_000;

/** What johnny-five's types leave out. */
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
  // johnny-five caches pin names per board; the cache refills as needed.
  Pins.normalize.clear();
  // Its components stay in private tables for good; without these references they keep no board.
  for (const component of internals.register) {
    component.board = null;
    component.io = null;
  }
  internals.register = [];
  internals.removeAllListeners();
  io.removeAllListeners();
}
