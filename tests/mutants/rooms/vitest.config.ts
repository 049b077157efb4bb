import { configDefaults, defineConfig } from 'vitest/config';
import { NOT_A_TEST } from '../../not-a-test.ts';

const { MENISCUS_MUTANT_TESTS: asked = 'control' } = process.env;
const rooms = asked.split(',');

/** The tests that one room's mutants are put to; whole jobs and programs would take hours. */
export default defineConfig({
  test: {
    include: rooms.map((room) => `tests/${room}/**/*.test.ts`),
    exclude: [...configDefaults.exclude, 'tests/**/*.long.test.ts'],
    setupFiles: ['tests/seed.ts'],
    isolate: false,
    execArgv: ['--import', new URL('../../loader/register.js', import.meta.url).href],
    server: { deps: { external: [NOT_A_TEST] } },
    testTimeout: 120_000,
  },
});
