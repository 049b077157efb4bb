/**
 * `npm run bench -- --port NAME` puts a board on a serial port through the board contract, and
 * `npm run bench:loop` measures the loop's reaction on the emulated board. Both are suites of their
 * own, outside `npm test`: the one needs hardware, the other measures time.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const [suite = '', ...rest] = process.argv.slice(2);
const { values } = parseArgs({ args: rest, options: { port: { type: 'string' } } });
if (suite === 'board' && values.port === undefined) {
  console.error('Name the port of the board: npm run bench -- --port /dev/ttyUSB0');
  console.error('`meniscus ports` lists the ports there are.');
  process.exit(2);
}
const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const { status } = spawnSync(
  process.execPath,
  [
    here('../../node_modules/vitest/vitest.mjs'),
    'run',
    '--config',
    here('vitest.config.ts'),
    `tests/benches/${suite}.bench.ts`,
  ],
  {
    cwd: here('../..'),
    stdio: 'inherit',
    env: { ...process.env, MENISCUS_PORT: values.port ?? '' },
  },
);
process.exit(status ?? 1);
