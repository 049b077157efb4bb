import { test } from 'vitest';
import { chunksOf, expectFirstCycleWithin } from './first-cycle.ts';

test.each(chunksOf(0, 40))(
  'no limit is passed and set-points hold once settled: seeds from %d',
  (...seeds) => {
    for (const seed of seeds) expectFirstCycleWithin(seed);
  },
);
