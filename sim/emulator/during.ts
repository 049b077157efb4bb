/**
 * Awaits a promise on the emulated bench's clock, which moves only while someone sleeps by it: the
 * host's driver opens and closes a board this way.
 */
import type { VirtualClock } from './virtual-clock.ts';

const SLICE_S = 0.001;

export async function during<T>(
  clock: Pick<VirtualClock, 'sleep'>,
  promise: Promise<T>,
): Promise<T> {
  let settled = false;
  const settle = (): void => {
    settled = true;
  };
  promise.then(settle, settle);
  while (!settled) await clock.sleep(SLICE_S);
  return promise;
}
