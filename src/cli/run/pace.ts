/**
 * The simulated board's speed relative to the wall clock: a multiple of real time, or as fast as
 * possible. Simulated time advances only by these ticks; nothing else reads the clock.
 */

export type Speed = number | 'max';

/** Ticks between two turns of the event loop when running as fast as possible. */
const BATCH_TICKS = 200;

export interface Pacer {
  /** Ends the run after the current tick. */
  readonly stop: () => void;
  /** Resolves when stopped. */
  readonly done: Promise<void>;
}

/** Calls `tick` once for each `tickS` of board time until stopped. */
export function createPacer(tick: () => void, tickS: number, speed: Speed): Pacer {
  let running = true;
  const done = new Promise<void>((resolve, reject) => {
    const startMs = performance.now();
    let ticks = 0;
    const due = (): number =>
      speed === 'max'
        ? ticks + BATCH_TICKS
        : Math.floor(((performance.now() - startMs) / 1000) * (speed / tickS));
    const turn = (): void => {
      try {
        for (const until = due(); running && ticks < until; ticks++) tick();
      } catch (error) {
        reject(error);
        return;
      }
      if (!running) resolve();
      else if (speed === 'max') setImmediate(turn);
      // Deadlines are absolute, so that delays do not accumulate.
      else
        setTimeout(
          turn,
          Math.max(1, startMs + ((ticks + 1) * tickS * 1000) / speed - performance.now()),
        );
    };
    setImmediate(turn);
  });
  return {
    stop: () => {
      running = false;
    },
    done,
  };
}
