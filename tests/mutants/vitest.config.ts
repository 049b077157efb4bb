import { configDefaults, defineConfig } from 'vitest/config';

const rooms = (process.env['MENISCUS_MUTANT_TESTS'] ?? 'control').split(',');

/** The tests that one room's mutants are put to; whole jobs and programs would take hours. */
export default defineConfig({
  test: {
    include: rooms.map((room) => `tests/${room}/**/*.test.ts`),
    exclude: [...configDefaults.exclude, 'tests/**/*.long.test.ts'],
    testTimeout: 30_000,
  },
});
