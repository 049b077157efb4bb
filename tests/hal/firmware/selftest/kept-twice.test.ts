/** A sample of the state that protection rests on, flipped bit by bit while the outputs act. */
import { describe, expect, test } from 'vitest';
import { BUSY, CLEAR, createBench, imageFacts, PINS_BUSY } from '../bench.ts';
import {
  bitsOf,
  busy,
  expectLeaseKept,
  expectTold,
  isSampled,
  LEASE_BITS,
  ROWS,
} from './kept-twice.ts';

describe.each(ROWS)('$what', (row) => {
  test.each(bitsOf(row).filter(([byte]) => isSampled(byte)))(
    'byte %i, bit %i flipped: safe in two ticks, and named',
    (byte, bit) => expectTold(row, byte, bit),
  );
});

test('a trip never vanishes: its bit flipped away comes back with the fault of memory', () => {
  const bench = createBench();
  bench.setSwitch('emergencyStop', true);
  expect(bench.trips()).toEqual(['emergency-stop']);
  bench.setSwitch('emergencyStop', false);
  bench.chip.run(0.01);
  const address = imageFacts.dataAddresses.keptTrips;
  bench.chip.poke(address, bench.chip.peek(address) & 0xfe);
  expect(bench.trips()).toEqual(['emergency-stop', 'memory']);
});

test.each(LEASE_BITS.filter(isSampled))(
  'a lease with bit %i too many does not outlast the one that was given',
  expectLeaseKept,
);

test('a fault that is gone can be cleared, and the board obeys again', () => {
  const bench = busy();
  const address = imageFacts.dataAddresses.keptRequest;
  bench.chip.poke(address, bench.chip.peek(address) ^ 1);
  expect(bench.trips()).toEqual(['memory']);
  bench.want(CLEAR);
  expect(bench.trips()).toEqual([]);
  bench.want(BUSY);
  expect(bench.pins()).toEqual(PINS_BUSY);
});
