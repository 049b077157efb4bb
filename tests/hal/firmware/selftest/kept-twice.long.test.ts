/** The bytes of the state that protection rests on which the quick test leaves out. */
import { describe, test } from 'vitest';
import { bitsOf, expectLeaseKept, expectTold, isSampled, LEASE_BITS, ROWS } from './kept-twice.ts';

describe.each(ROWS)('$what', (row) => {
  test.each(bitsOf(row).filter(([byte]) => !isSampled(byte)))(
    'byte %i, bit %i flipped: safe in two ticks, and named',
    (byte, bit) => expectTold(row, byte, bit),
  );
});

test.each(LEASE_BITS.filter((bit) => !isSampled(bit)))(
  'a lease with bit %i too many does not outlast the one that was given',
  expectLeaseKept,
);
