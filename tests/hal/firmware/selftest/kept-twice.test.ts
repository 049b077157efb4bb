/**
 * State that protection rests on: every bit of it flipped while the outputs act. Safe within two
 * ticks, with a name, whatever the host goes on asking for.
 */
import { describe, expect, test } from 'vitest';
import type { KeptTwice } from '../../../../hal/firmware/make/image-facts.ts';
import {
  type Bench,
  BUSY,
  CLEAR,
  createBench,
  imageFacts,
  limitsMessage,
  PINS_BUSY,
  PINS_SAFE,
  type Trip,
} from '../bench.ts';
import { TWO_TICKS_S, timeUntilOff, tripsAndStays } from './harm.ts';

interface Row {
  readonly what: string;
  readonly at: KeptTwice;
  /** Of both copies together. */
  readonly bytes: number;
  readonly trip: Trip;
}

const ROWS: readonly Row[] = [
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

const busy = (): Bench => {
  const bench = createBench();
  bench.send(limitsMessage({ pressureCeiling: 700 }), 0.02);
  bench.want(BUSY);
  return bench;
};

describe.each(ROWS)('$what', ({ at, bytes, trip }) => {
  // One bit of each byte here, another in each; all of them in campaign.long.test.ts.
  test.each(Array.from({ length: bytes }, (_, byte) => [byte, (byte * 5) % 8]))(
    'byte %i, bit %i flipped: safe in two ticks, and named',
    (byte, bit) => {
      const bench = busy();
      expect(bench.pins()).toEqual(PINS_BUSY);
      const address = imageFacts.dataAddresses[at] + byte;
      bench.chip.poke(address, bench.chip.peek(address) ^ (1 << bit));
      expect(timeUntilOff(bench, 0.02)).toBeLessThan(TWO_TICKS_S);
      expect(tripsAndStays(bench)).toContain(trip);
      expect(bench.pins()).toEqual(PINS_SAFE);
    },
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

test('a lease with a bit too many does not outlast the one that was given', () => {
  for (let bit = 0; bit < 16; bit++) {
    const bench = busy();
    const address = imageFacts.dataAddresses.keptRequest + 6 + (bit >> 3);
    bench.chip.poke(address, bench.chip.peek(address) | (1 << (bit & 7)));
    bench.chip.run(0.501);
    expect(bench.pins()).toEqual(PINS_SAFE);
  }
});

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
