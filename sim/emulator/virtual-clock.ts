/**
 * The host's clock on an emulated bench: the same time as the board's, advanced by waiting. A
 * sleeper advances the bench by milliseconds and, in between, lets the streams do their work.
 * Several simultaneous sleepers share the time: the first advances it, the others follow.
 */
import type { SchedulerLike } from 'rxjs';
import { type Later, schedulerOn } from '../../hal/firmata/clock.ts';
import type { EmulatedBench } from './emulated-bench.ts';

const SLICE_S = 0.001;
/** Board time is whole milliseconds: less than this is a rounding error. */
const TINY_S = 1e-9;
const MS_PER_S = 1000;

export interface VirtualClock {
  readonly nowS: () => number;
  /** For streams that wait by this clock. */
  readonly scheduler: SchedulerLike;
  /** Runs every `periodS` until the returned function is called. */
  readonly every: (periodS: number, run: () => void) => () => void;
  readonly sleep: (seconds: number) => Promise<void>;
  /** Like `sleep`, but the streams do not run in between. */
  readonly advance: (seconds: number) => void;
}

/** `letStreamsFlow` resolves when the events that are due in the process have been handled. */
export function createVirtualClock(
  bench: Pick<EmulatedBench, 'timeS' | 'advance'>,
  letStreamsFlow: () => Promise<void>,
): VirtualClock {
  const alarms = new Set<{ readonly dueS: number; readonly run: () => void }>();
  const later: Later = (delayMs, run) => {
    const alarm = { dueS: bench.timeS() + delayMs / MS_PER_S, run };
    alarms.add(alarm);
    return () => alarms.delete(alarm);
  };
  const slice = (): void => {
    bench.advance(SLICE_S);
    for (const alarm of [...alarms]) {
      if (bench.timeS() < alarm.dueS - TINY_S || !alarms.delete(alarm)) continue;
      alarm.run();
    }
  };
  const scheduler = schedulerOn(() => bench.timeS() * MS_PER_S, later);
  return {
    nowS: bench.timeS,
    scheduler,
    every: (periodS, run) => {
      const periodMs = periodS * MS_PER_S;
      const action = scheduler.schedule(function () {
        run();
        this.schedule(undefined, periodMs);
      }, periodMs);
      return () => action.unsubscribe();
    },
    sleep: async (seconds) => {
      const untilS = bench.timeS() + seconds;
      await letStreamsFlow();
      while (bench.timeS() < untilS - TINY_S) {
        slice();
        await letStreamsFlow();
      }
    },
    advance: (seconds) => {
      const untilS = bench.timeS() + seconds;
      while (bench.timeS() < untilS - TINY_S) slice();
    },
  };
}
