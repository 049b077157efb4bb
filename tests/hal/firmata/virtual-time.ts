/** Host time for tests: stands still until a test moves it, and lets promises settle in between. */
import type { HostClock } from '../../../hal/firmata/clock.ts';

export interface VirtualTime extends HostClock {
  readonly advance: (seconds: number) => Promise<void>;
  /** The host was away: time has passed and each timer that is due runs once, late. */
  readonly jump: (seconds: number) => Promise<void>;
  /** Timers that still run. */
  readonly timers: () => number;
}

const STEP_S = 0.005;

/** Everything that is already under way has happened, streams and promises both. */
export async function settled(): Promise<void> {
  for (let i = 0; i < 3; i++) await new Promise((resolve) => setImmediate(resolve));
}

export function createVirtualTime(): VirtualTime {
  let nowS = 0;
  const timers = new Set<{ dueS: number; readonly periodS: number; readonly run: () => void }>();
  const every = (periodS: number, run: () => void) => {
    const timer = { dueS: nowS + periodS, periodS, run };
    timers.add(timer);
    return () => void timers.delete(timer);
  };
  const runDue = () => {
    for (const timer of [...timers]) {
      if (timer.dueS > nowS + 1e-9 || !timers.has(timer)) continue;
      timer.dueS += timer.periodS;
      timer.run();
    }
  };
  return {
    nowS: () => nowS,
    every,
    jump: async (seconds) => {
      nowS += seconds;
      for (const timer of timers) timer.dueS = Math.max(timer.dueS, nowS);
      runDue();
      await settled();
    },
    sleep: (seconds) =>
      new Promise((resolve) => {
        const cancel = every(seconds, () => {
          cancel();
          resolve();
        });
      }),
    timers: () => timers.size,
    advance: async (seconds) => {
      const endS = nowS + seconds;
      await settled();
      while (nowS < endS - 1e-9) {
        nowS = Math.min(nowS + STEP_S, endS);
        runDue();
        await settled();
      }
    },
  };
}
