import { expect, test } from 'vitest';
import { createPacer } from '../../../src/cli/run/pace.ts';

test('nothing ticks before the caller has hold of the pacer, so a job that ends at once can stop it', async () => {
  let ticks = 0;
  const pacer = createPacer(
    () => {
      ticks += 1;
      if (ticks === 3) pacer.stop();
    },
    0.05,
    'max',
  );
  expect(ticks).toBe(0);
  await pacer.done;
  expect(ticks).toBe(3);
});

test('an error in a tick ends the pace and is handed on', async () => {
  const pacer = createPacer(
    () => {
      throw new Error('plant on fire');
    },
    0.05,
    1000,
  );
  await expect(pacer.done).rejects.toThrow('plant on fire');
});
