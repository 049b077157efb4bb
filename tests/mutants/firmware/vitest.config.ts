import { defineConfig } from 'vitest/config';

/** Threads, so that a run that is ended for its time leaves no worker behind. */
export default defineConfig({
  test: {
    include: ['tests/mutants/firmware/suite.ts'],
    pool: 'threads',
    maxWorkers: 1,
    testTimeout: 20_000,
  },
});
