/** Every bit of every byte that the program's data takes, and every fourth byte of the stack's room. */
import { expect, test } from 'vitest';
import { imageFacts } from '../bench.ts';
import { harmOf, RAM_BYTES } from './ram-bits.ts';

const DATA_BYTES = imageFacts.dataAddresses.endOfData - 0x100;

test('no bit of the RAM does harm when it is flipped', () => {
  const harms: string[] = [];
  for (let byte = 0; byte < RAM_BYTES; byte += byte < DATA_BYTES ? 1 : 4) {
    for (let bit = 0; bit < 8; bit++) {
      const harm = harmOf(byte, bit);
      if (harm !== null) harms.push(`byte ${byte}, bit ${bit}: ${harm}`);
    }
  }
  expect(harms).toEqual([]);
}, 3_600_000);
