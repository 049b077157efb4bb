/**
 * A cable that repeats messages or lets two change places: what buffers of a driver or an adapter
 * may do. It waits for whole Firmata messages, each ended by its own last byte; the bytes within
 * one stay in order.
 */
import { has } from '../faults/fault-effects.ts';
import type { Fault } from '../faults/faults.ts';

export interface MessageOrder {
  /** What arrives of these bytes, in their order of arrival. */
  readonly pass: (bytes: readonly number[], active: readonly Fault[]) => readonly number[];
}

const END_OF_MESSAGE = 0xf7;

export function createMessageOrder(): MessageOrder {
  let begun: number[] = [];
  let held: number[] = [];
  let odd = false;

  const ordered = (message: number[], active: readonly Fault[]): readonly number[] => {
    odd = !odd;
    if (has('frames-repeated', active)) return odd ? message : [...message, ...message];
    if (odd) {
      held = message;
      return [];
    }
    const both = [...message, ...held];
    held = [];
    return both;
  };
  const released = (): readonly number[] => {
    const rest = [...held, ...begun];
    held = [];
    begun = [];
    return rest;
  };
  return {
    pass: (bytes, active) => {
      if (!has('frames-repeated', active) && !has('frames-reordered', active)) {
        return [...released(), ...bytes];
      }
      return bytes.flatMap((byte) => {
        begun.push(byte);
        if (byte !== END_OF_MESSAGE) return [];
        const message = begun;
        begun = [];
        return ordered(message, active);
      });
    },
  };
}
