/**
 * The host's own time, for the driver alone: when to ask again, when to give up, when to say that
 * the board is mute. Nothing here measures the process; frames carry the board's time for that.
 * Every stream that waits gets its scheduler handed in. Tests and the emulated bench hand in one on
 * a clock of their own, so that no test waits for a wall clock.
 */
import { asyncScheduler, type SchedulerAction, type SchedulerLike, Subscription } from 'rxjs';

const MS_PER_S = 1000;

/** Monotonic: the scheduler that RxJS takes by default reads the calendar, which people set. */
export const REAL_TIME: SchedulerLike = {
  now: () => performance.now(),
  schedule: asyncScheduler.schedule.bind(asyncScheduler),
};

export const nowS = (scheduler: SchedulerLike): number => scheduler.now() / MS_PER_S;

/** Runs once, unless the returned function is called before. */
export type Later = (delayMs: number, run: () => void) => () => void;

/** A scheduler on any clock that can run something later. */
export function schedulerOn(nowMs: () => number, later: Later): SchedulerLike {
  return {
    now: nowMs,
    schedule<T>(work: (this: SchedulerAction<T>, state?: T) => void, delayMs = 0, start?: T) {
      let callOff = (): void => {};
      const action: SchedulerAction<T> = Object.assign(new Subscription(() => callOff()), {
        schedule: (state?: T, nextDelayMs = 0): Subscription => {
          callOff();
          if (!action.closed) callOff = later(nextDelayMs, () => work.call(action, state));
          return action;
        },
      });
      return action.schedule(start, delayMs);
    },
  };
}
