/**
 * The host's own time, for the driver alone: when to ask again, when to give up, when to say that
 * the board is mute. Nothing here measures the process; frames carry the board's time for that.
 * Tests and the emulated bench hand in a virtual one, so that no test waits for a wall clock.
 */
export interface HostClock {
  readonly nowS: () => number;
  /** Runs every `periodS` until the returned function is called. */
  readonly every: (periodS: number, run: () => void) => () => void;
  readonly sleep: (seconds: number) => Promise<void>;
}

const MS_PER_S = 1000;

export const REAL_CLOCK: HostClock = {
  nowS: () => performance.now() / MS_PER_S,
  every: (periodS, run) => {
    const timer = setInterval(run, periodS * MS_PER_S);
    return () => clearInterval(timer);
  },
  sleep: (seconds) => new Promise((resolve) => setTimeout(resolve, seconds * MS_PER_S)),
};

/** Runs once, `delayS` from now, unless the returned function is called before: leaves no timer. */
export function after(clock: HostClock, delayS: number, run: () => void): () => void {
  const cancel = clock.every(delayS, () => {
    cancel();
    run();
  });
  return cancel;
}
