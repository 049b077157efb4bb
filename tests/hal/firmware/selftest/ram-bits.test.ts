/** A sample of the bits of RAM; all that the data takes are in the long test. */
import { expect, test } from 'vitest';
import { harmOf, RAM_BYTES } from './ram-bits.ts';

const SAMPLES = 8;
/** Coprime to the bits of the RAM: the sample is spread over all of it. */
const STRIDE = 2039;

test('no bit of a sample of the RAM does harm when it is flipped', () => {
  const bits = Array.from({ length: SAMPLES }, (_, i) => (i * STRIDE) % (RAM_BYTES * 8));
  const harms = bits.flatMap((at) => {
    const harm = harmOf(at >> 3, at & 7);
    return harm === null ? [] : [`byte ${at >> 3}, bit ${at & 7}: ${harm}`];
  });
  expect(harms).toEqual([]);
});
