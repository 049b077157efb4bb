/**
 * The firmware's tests as one suite, in the order that `judge.ts` asks for: those that have killed
 * most first. One file and one worker, so that the first failure ends it.
 */
import { describe } from 'vitest';

const { MUTANT_TESTS = '' } = process.env;
const files = MUTANT_TESTS.split(',');
for (const file of files) {
  describe(file, async () => {
    await import(/* @vite-ignore */ `../../hal/firmware/${file}`);
  });
}
