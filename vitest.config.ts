import { configDefaults, defineConfig } from 'vitest/config';

/** Programs, sockets and serial lines: what runs in real time has the machine to itself. */
const IN_REAL_TIME = [
  'tests/emulated/**/*.test.ts',
  'tests/cli/**/*.test.ts',
  'tests/sim/emulator/**/*.test.ts',
];

export default defineConfig({
  test: {
    passWithNoTests: false,
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
