/** Host time for tests: stands still until a test moves it, and lets promises settle in between. */
import type { SchedulerLike } from 'rxjs';
import { type Later, schedulerOn } from '../../../hal/firmata/clock.ts';

export interface VirtualTime {
  readonly scheduler: SchedulerLike;
  readonly advance: (seconds: number) => Promise<void>;
  /** The host was away: time has passed and each timer that is due runs once, late. */
  readonly jump: (seconds: number) => Promise<void>;
  /** Timers that still run. */
  readonly timers: () => number;
}

const STEP_MS = 5;

/** Everything that is already under way has happened, streams and promises both. */
export async function settled(): Promise<void> {
  for (let i = 0; i < 3; i++) await new Promise((resolve) => setImmediate(resolve));
}

export function createVirtualTime(): VirtualTime {
  let nowMs = 0;
  const timers = new Set<{ readonly dueMs: number; readonly run: () => void }>();
  const later: Later = (delayMs, run) => {
    const timer = { dueMs: nowMs + delayMs, run };
    timers.add(timer);
    return () => timers.delete(timer);
  };
  const goTo = async (ms: number) => {
    nowMs = ms;
    for (const timer of [...timers]) {
      if (timer.dueMs <= nowMs + 1e-6 && timers.delete(timer)) timer.run();
    }
    await settled();
  };
  return {
    scheduler: schedulerOn(() => nowMs, later),
    jump: (seconds) => goTo(nowMs + 1000 * seconds),
    timers: () => timers.size,
    advance: async (seconds) => {
      const endMs = nowMs + 1000 * seconds;
      await settled();
      while (nowMs < endMs - 1e-6) await goTo(Math.min(nowMs + STEP_MS, endMs));
    },
  };
}
