/**
 * An emulated bench behind a serial line of the operating system: bytes in, bytes out, at real
 * time, a multiple of it, or in lock-step with the host. It takes commands as lines and reports as
 * lines of JSON: the state once a second of board time, the result of each command, and at the end
 * what was really done to the break. Streams, clock and processes are passed in.
 */
import { KINDS, SYSEX_END, SYSEX_START, UNIT_SYSEX } from '../../hal/firmata/protocol.ts';
import { isSafe } from '../../src/core/frame.ts';
import { runCommand } from './bench-commands.ts';
import {
  createEmulatedBench,
  type EmulatedBench,
  type EmulatedBenchOptions,
} from './emulated-bench.ts';

export interface ServeOptions extends EmulatedBenchOptions {
  /** The board's end of the line. */
  readonly line: {
    readonly send: (bytes: Uint8Array) => void;
    readonly onBytes: (take: (bytes: Uint8Array) => void) => void;
  };
  /** A multiple of real time; or wait after each frame until the host has written something. */
  readonly pace: { readonly timesReal: number } | { readonly lockStepPatienceMs: number };
  readonly onCommand: (take: (line: string) => void) => void;
  readonly report: (line: string) => void;
  readonly wall: {
    readonly nowMs: () => number;
    /** Lets streams flow meanwhile; also with 0. */
    readonly pause: (ms: number) => Promise<void>;
  };
}

export interface ServedEmulator {
  /** Ends when stopped, by `stop` or by the command of that name. */
  readonly run: () => Promise<void>;
  readonly stop: () => void;
}

const SLICE_S = 0.001;
const REPORT_EVERY_S = 1;
/** When it falls further behind than this, lost time is not made up. */
const LONGEST_LAG_MS = 200;

export function serveEmulator(options: ServeOptions): ServedEmulator {
  const { line, onCommand, report, wall } = options;
  const bench = createEmulatedBench(options);
  const watch = createFrameWatch();
  const history: History = { hostHeardS: null, pinsSafeSinceS: 0 };
  let hostHasWritten = false;
  let stopped = false;
  const say = (kind: string, facts: object): void => report(JSON.stringify({ kind, ...facts }));
  line.onBytes((bytes) => {
    hostHasWritten = true;
    history.hostHeardS = bench.timeS();
    bench.cable.fromHost(bytes);
  });
  bench.onHostBytes((bytes) => {
    watch.see(bytes);
    line.send(bytes);
  });
  onCommand((text) => {
    const command = text.trim();
    if (command === 'stop') stopped = true;
    else if (command === 'report') say('state', stateOf(bench, history));
    else if (command !== '') say('command', { command, ...runCommand(bench, command) });
  });
  const untilHostWrites = async (patienceMs: number): Promise<void> => {
    hostHasWritten = false;
    const giveUpMs = wall.nowMs() + patienceMs;
    while (!hostHasWritten && !stopped && wall.nowMs() < giveUpMs) await wall.pause(0);
  };
  const wait = createPace(options, bench, async (patienceMs) => {
    if (watch.takeFrame()) await untilHostWrites(patienceMs);
    else await wall.pause(0);
  });
  return {
    run: async () => {
      say('ready', {});
      let reportAtS = REPORT_EVERY_S;
      while (!stopped) {
        bench.advance(SLICE_S);
        remember(history, bench);
        await wait();
        if (bench.timeS() < reportAtS) continue;
        reportAtS += REPORT_EVERY_S;
        say('state', stateOf(bench, history));
      }
      say('end', { ...stateOf(bench, history), ...truthOf(bench) });
    },
    stop: () => {
      stopped = true;
    },
  };
}

/** What to wait for after each slice of board time. */
function createPace(
  { pace, wall }: Pick<ServeOptions, 'pace' | 'wall'>,
  bench: EmulatedBench,
  inLockStep: (patienceMs: number) => Promise<void>,
): () => Promise<void> {
  if ('lockStepPatienceMs' in pace) return () => inLockStep(pace.lockStepPatienceMs);
  let originMs = wall.nowMs() - (1000 * bench.timeS()) / pace.timesReal;
  return async () => {
    const aheadMs = originMs + (1000 * bench.timeS()) / pace.timesReal - wall.nowMs();
    if (aheadMs < -LONGEST_LAG_MS) originMs -= aheadMs;
    await wall.pause(Math.max(0, aheadMs));
  };
}

export interface FrameWatch {
  readonly see: (bytes: Iterable<number>) => void;
  /** Whether a complete frame has passed since the previous call. */
  readonly takeFrame: () => boolean;
}

/** Recognises the unit's frames among all other messages. */
export function createFrameWatch(): FrameWatch {
  const head = [SYSEX_START, UNIT_SYSEX, KINDS.frame];
  let matched = 0;
  let seen = false;
  return {
    see: (bytes) => {
      for (const byte of bytes) {
        if (byte === SYSEX_START) matched = 1;
        else if (matched > 0 && matched < head.length)
          matched = byte === head[matched] ? matched + 1 : 0;
        else if (byte === SYSEX_END) {
          seen ||= matched === head.length;
          matched = 0;
        }
      }
    },
    takeFrame: () => {
      const was = seen;
      seen = false;
      return was;
    },
  };
}

/** Board times, s; null where there is none. */
interface History {
  hostHeardS: number | null;
  /**
   * Time since which the pins have asked for the safe state without interruption; null while they
   * do not.
   */
  pinsSafeSinceS: number | null;
}

function remember(history: History, bench: EmulatedBench): void {
  history.pinsSafeSinceS = isSafe(bench.pins()) ? (history.pinsSafeSinceS ?? bench.timeS()) : null;
}

const stateOf = (bench: EmulatedBench, history: History) => ({
  timeS: bench.timeS(),
  ...history,
  pins: bench.pins(),
  acting: bench.acting(),
  display: bench.display(),
  resets: bench.chip.resets(),
});

const truthOf = (bench: EmulatedBench) => {
  const { filledRatio, clear, truth } = bench.view();
  return { filledRatio, clear, doseJPerM2: truth.doseJPerM2, pressurePa: truth.pressurePa };
};
