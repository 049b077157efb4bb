/**
 * The bench's cable as the host driver's line: bytes go to the chip as they are written and come
 * back while board time passes, in the same process and in order. It is open from the start, like a
 * port that has just been opened. Pulling the cable closes it for good.
 */
import type { Done, Line, LineEvents } from '../../hal/firmata/line.ts';
import type { EmulatedBench } from './emulated-bench.ts';

export interface InProcessLine extends Line {
  /** Pulls the plug: nothing passes any more, and the port reports that it closed. */
  readonly pull: () => void;
}

type Listeners = { [E in keyof LineEvents]: Set<(...args: LineEvents[E]) => void> };

export function createInProcessLine(
  bench: Pick<EmulatedBench, 'cable' | 'onHostBytes'>,
): InProcessLine {
  const listeners: Listeners = {
    open: new Set(),
    data: new Set(),
    close: new Set(),
    error: new Set(),
  };
  const emit = <E extends keyof LineEvents>(event: E, ...args: LineEvents[E]): void => {
    for (const listener of [...listeners[event]]) listener(...args);
  };
  let isOpen = true;
  const stopHearing = bench.onHostBytes((bytes) => emit('data', bytes));
  const shut = (why: Error | null): void => {
    if (!isOpen) return;
    isOpen = false;
    stopHearing();
    emit('close', why);
  };
  const whenOpen = (done: Done | undefined, act: () => void): void => {
    if (!isOpen) {
      done?.(new Error('Port is not open'));
      return;
    }
    act();
    done?.();
  };
  return {
    get isOpen() {
      return isOpen;
    },
    on: (event, listener) => listeners[event].add(listener),
    off: (event, listener) => listeners[event].delete(listener),
    write: (bytes, done) => whenOpen(done, () => bench.cable.fromHost(bytes)),
    drain: (done) => whenOpen(done, () => {}),
    close: (done) => whenOpen(done, () => shut(null)),
    pull: () => shut(new Error('The cable was pulled')),
  };
}
