/**
 * Handles Ctrl-C and the system's other termination signals. The first asks the controller to stop,
 * so that it makes safe, states the reason and closes the job; a second signal, or a timeout, ends
 * without it. An uncaught error ends at once, but only after outputs are safe and the journal is
 * closed.
 */
export const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
/** Longer than the unit needs to come to rest in real time. */
const PATIENCE_MS = 5_000;

export interface Interrupts {
  readonly raise: (why: string) => void;
  readonly close: () => void;
}

export function createInterrupts(act: {
  readonly ask: (why: string) => void;
  readonly force: (why: string) => void;
  readonly fail: (error: unknown) => void;
}): Interrupts {
  let patience: NodeJS.Timeout | null = null;
  const raise = (why: string): void => {
    if (patience !== null) {
      act.force(why);
      return;
    }
    patience = setTimeout(() => act.force(why), PATIENCE_MS);
    act.ask(why);
  };
  const onSignal = (signal: NodeJS.Signals): void => raise(`Ended by ${signal}.`);
  for (const signal of SIGNALS) process.on(signal, onSignal);
  process.on('uncaughtException', act.fail);
  return {
    raise,
    close: () => {
      if (patience !== null) clearTimeout(patience);
      for (const signal of SIGNALS) process.off(signal, onSignal);
      process.off('uncaughtException', act.fail);
    },
  };
}
