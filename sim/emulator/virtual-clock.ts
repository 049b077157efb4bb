/**
 * The host's clock on an emulated bench: the same time as the board's, advanced by waiting. A
 * sleeper advances the bench by milliseconds and, in between, lets the streams do their work.
 * Several simultaneous sleepers share the time: the first advances it, the others follow.
 */
import type { HostClock } from '../../hal/firmata/clock.ts';
import type { EmulatedBench } from './emulated-bench.ts';

const SLICE_S = 0.001;
/** Board time is whole milliseconds: less than this is a rounding error. */
const TINY_S = 1e-9;

interface Alarm {
  readonly periodS: number;
  readonly run: () => void;
  nextS: number;
}

export interface VirtualClock extends HostClock {
  /** Like `sleep`, but the streams do not run in between. */
  readonly advance: (seconds: number) => void;
}

/** `letStreamsFlow` resolves when the events that are due in the process have been handled. */
export function createVirtualClock(
  bench: Pick<EmulatedBench, 'timeS' | 'advance'>,
  letStreamsFlow: () => Promise<void>,
): VirtualClock {
  const alarms = new Set<Alarm>();
  const slice = (): void => {
    bench.advance(SLICE_S);
    for (const alarm of [...alarms]) {
      if (!alarms.has(alarm) || bench.timeS() < alarm.nextS - TINY_S) continue;
      alarm.nextS += alarm.periodS;
      alarm.run();
    }
  };
  return {
    nowS: bench.timeS,
    every: (periodS, run) => {
      const alarm = { periodS, run, nextS: bench.timeS() + periodS };
      alarms.add(alarm);
      return () => alarms.delete(alarm);
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
