import { randomInt } from 'node:crypto';
import { configDefaults, defineConfig } from 'vitest/config';

/** Programs, sockets and serial lines: what runs in real time has the machine to itself. */
const IN_REAL_TIME = [
  'tests/emulated/**/*.test.ts',
  'tests/cli/**/*.test.ts',
  'tests/sim/emulator/**/*.test.ts',
];

/** Drawn here, once for all files, and printed so that the run can be repeated. */
const { MENISCUS_SEED: asked } = process.env;
if (asked === 'random') {
  const seed = String(randomInt(2 ** 31));
  Object.assign(process.env, { MENISCUS_SEED: seed });
  console.info(`MENISCUS_SEED=${seed}`);
}

export default defineConfig({
  test: {
    passWithNoTests: false,
    setupFiles: ['tests/seed.ts'],
    testTimeout: 120_000,
    hookTimeout: 60_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'in steps',
          include: ['tests/**/*.test.ts'],
          exclude: [...configDefaults.exclude, ...IN_REAL_TIME],
          maxWorkers: '100%',
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'in real time',
          include: IN_REAL_TIME,
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
