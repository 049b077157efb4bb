/**
 * Keeps one picture on a terminal up to date, a few times per second of wall time, whatever the
 * speed of what it shows. It only displays; a failure here cannot reach control.
 */

/** Faster redraws only flicker. */
const REDRAW_MS = 100;

export interface LiveDrawing<T> {
  readonly take: (shown: T) => void;
  /** Removes the picture while other text is written, which then stays above it. */
  readonly aside: (write: () => void) => void;
  /** Draws the last picture once more and leaves it on the screen. */
  readonly close: () => void;
}

export async function createLiveDrawing<T>(
  out: NodeJS.WriteStream,
  pictureOf: (shown: T, colour: boolean) => string,
): Promise<LiveDrawing<T>> {
  // Loaded only for a terminal: it takes a tenth of the program's start-up time.
  const { createLogUpdate } = await import('log-update');
  const update = createLogUpdate(out, { showCursor: false });
  const colour = out.hasColors?.() ?? false;
  let last: T | null = null;
  let drawnMs = Number.NEGATIVE_INFINITY;
  let closed = false;
  const draw = (): void => {
    if (last !== null && !closed) update(pictureOf(last, colour));
  };
  return {
    take: (shown) => {
      last = shown;
      const nowMs = performance.now();
      if (nowMs - drawnMs < REDRAW_MS) return;
      drawnMs = nowMs;
      draw();
    },
    aside: (write) => {
      if (!closed) update.clear();
      write();
      draw();
    },
    close: () => {
      draw();
      closed = true;
      update.done();
    },
  };
}
