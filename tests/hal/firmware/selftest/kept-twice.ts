/**
 * State that protection rests on: a bit of it flipped while the outputs act. Safe within two ticks,
 * with a name, whatever the host goes on asking for. A bit of every third byte is in the quick test,
 * one of each other byte in the long one; `ram-bits.hours.test.ts` flips every bit of the RAM.
 */
import { expect } from 'vitest';
import type { KeptTwice } from '../../../../hal/firmware/make/image-facts.ts';
import {
  type Bench,
  BUSY,
  createBench,
  imageFacts,
  limitsMessage,
  PINS_BUSY,
  PINS_SAFE,
  type Trip,
} from '../bench.ts';
import { TWO_TICKS_S, timeUntilOff, tripsAndStays } from './harm.ts';

export interface Row {
  readonly what: string;
  readonly at: KeptTwice;
  /** Of both copies together. */
  readonly bytes: number;
  readonly trip: Trip;
}

export const ROWS: readonly Row[] = [
  {
    what: 'requests, lease and number of the outputs',
    at: 'keptRequest',
    bytes: 20,
    trip: 'memory',
  },
  { what: 'trips and the time that the lamp burned', at: 'keptTrips', bytes: 24, trip: 'memory' },
  { what: 'limits', at: 'keptLimits', bytes: 22, trip: 'settings' },
  { what: 'board time', at: 'keptNowMs', bytes: 8, trip: 'memory' },
  { what: 'findings of the self-tests', at: 'keptFindings', bytes: 18, trip: 'memory' },
];

export const busy = (): Bench => {
  const bench = createBench();
  bench.send(limitsMessage({ pressureCeiling: 700 }), 0.02);
  bench.want(BUSY);
  return bench;
};

/** Bytes of a row with the bit that is flipped in each: another in each. */
export const bitsOf = ({ bytes }: Row): readonly (readonly [number, number])[] =>
  Array.from({ length: bytes }, (_, byte) => [byte, (byte * 5) % 8]);
export const isSampled = (byte: number): boolean => byte % 3 === 0;

export function expectTold({ at, trip }: Row, byte: number, bit: number): void {
  const bench = busy();
  expect(bench.pins()).toEqual(PINS_BUSY);
  const address = imageFacts.dataAddresses[at] + byte;
  bench.chip.poke(address, bench.chip.peek(address) ^ (1 << bit));
  expect(timeUntilOff(bench, 0.02)).toBeLessThan(TWO_TICKS_S);
  expect(tripsAndStays(bench)).toContain(trip);
  expect(bench.pins()).toEqual(PINS_SAFE);
}

/** Of the 16 bits of a lease. */
export const LEASE_BITS = Array.from({ length: 16 }, (_, bit) => bit);

export function expectLeaseKept(bit: number): void {
  const bench = busy();
  const address = imageFacts.dataAddresses.keptRequest + 6 + (bit >> 3);
  bench.chip.poke(address, bench.chip.peek(address) | (1 << (bit & 7)));
  bench.chip.run(0.501);
  expect(bench.pins()).toEqual(PINS_SAFE);
}
