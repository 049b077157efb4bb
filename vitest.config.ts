import { randomInt } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { configDefaults, defineConfig } from 'vitest/config';
import { NOT_A_TEST } from './tests/not-a-test.ts';

/** What takes minutes: the line in real time, many seeds. `npm run test:long` runs these alone. */
const LONG = ['tests/**/*.long.test.ts'];
/** Whole counts, which take up to an hour: `npm run test:hours`. */
const HOURS = ['tests/**/*.hours.test.ts'];
/** Drawn here, once for all files, and printed so that the run can be repeated. */
const { MENISCUS_SEED: asked } = process.env;
if (asked === 'random') {
  const seed = String(randomInt(2 ** 31));
  Object.assign(process.env, { MENISCUS_SEED: seed });
  console.info(`MENISCUS_SEED=${seed}`);
}

/** The key and memory of the tests' unit: no test signs with the key of the person who runs them. */
if (process.env['MENISCUS_UNIT'] === undefined) {
  const unit = mkdtempSync(join(tmpdir(), 'meniscus-unit-'));
  Object.assign(process.env, { MENISCUS_UNIT: unit });
  process.on('exit', () => rmSync(unit, { recursive: true, force: true }));
}

interface Files {
  readonly include: string[];
  readonly exclude: string[];
  readonly maxWorkers: number | string;
}

const SHORT: Files = {
  include: ['tests/**/*.test.ts'],
  exclude: [...LONG, ...HOURS],
  maxWorkers: '100%',
};
/** By `--mode`. What runs in real time has the machine to itself. */
const FILES: Readonly<Record<string, Files>> = {
  long: { include: LONG, exclude: [], maxWorkers: 1 },
  hours: { include: HOURS, exclude: [], maxWorkers: '100%' },
};

export default defineConfig(({ mode }) => {
  const { include, exclude, maxWorkers } = FILES[mode] ?? SHORT;
  return {
    test: {
      include,
      exclude: [...configDefaults.exclude, ...exclude],
      maxWorkers,
      passWithNoTests: false,
      setupFiles: ['tests/seed.ts'],
      // One process keeps what it imported and compiled from file to file.
      isolate: false,
      execArgv: ['--import', new URL('tests/loader/register.js', import.meta.url).href],
      server: { deps: { external: [NOT_A_TEST] } },
      testTimeout: 120_000,
      hookTimeout: 120_000,
    },
  };
});
