/**
 * Progress of a long command on one line of the terminal: shown only after a second, only to a
 * person, and on stderr, so that the printed output stays clean.
 */

export interface Progress {
  /** Counts one more as done, or the given number. */
  readonly step: (count?: number) => void;
  /** Removes the line, before other output and at the end. */
  readonly clear: () => void;
}

const SHOWN_AFTER_MS = 1000;
const AGAIN_AFTER_MS = 100;
const BAR = 30;

export function createProgress(
  what: string,
  total: number,
  out: Pick<NodeJS.WriteStream, 'isTTY' | 'write'> = process.stderr,
  nowMs: () => number = () => performance.now(),
): Progress {
  const startMs = nowMs();
  let done = 0;
  let shownMs = Number.NEGATIVE_INFINITY;
  let shown = false;
  const clear = (): void => {
    if (shown) out.write('\r\u001b[2K');
    shown = false;
  };
  return {
    clear,
    step: (count = 1) => {
      done += count;
      const now = nowMs();
      if (!out.isTTY || now - startMs < SHOWN_AFTER_MS || now - shownMs < AGAIN_AFTER_MS) return;
      shownMs = now;
      shown = true;
      out.write(`\r\u001b[2K${progressLine(what, done, total, now - startMs)}`);
    },
  };
}

/** For work that takes a moment and has no countable parts; shown to a person only. */
export function tellWorking(words: string): void {
  if (process.stderr.isTTY) process.stderr.write(`${words} ...\n`);
}

export function progressLine(what: string, done: number, total: number, ms: number): string {
  const share = total === 0 ? 1 : Math.min(1, done / total);
  const full = Math.round(share * BAR);
  const bar = `${'█'.repeat(full)}${'░'.repeat(BAR - full)}`;
  const leftS = share > 0 ? (ms / share - ms) / 1000 : 0;
  return `${what} ${bar} ${Math.floor(share * 100)} %, ${Math.ceil(leftS)} s left`;
}
