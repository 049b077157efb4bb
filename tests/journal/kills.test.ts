import { test } from 'vitest';
import { expectLittleLost } from './kills.ts';

test('a program killed at a random moment loses at most one second of its journal', async () => {
  await expectLittleLost(4, 2000, 11);
}, 120_000);
