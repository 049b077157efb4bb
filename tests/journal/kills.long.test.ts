import { test } from 'vitest';
import { expectLittleLost } from './kills.ts';

test('a program killed at any of 200 random moments loses at most one second of its journal', async () => {
  await expectLittleLost(180, 4000, 12);
  // A whole job has about 20,000 frames.
  await expectLittleLost(20, 18_000, 13);
}, 1_200_000);
