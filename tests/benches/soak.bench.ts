/**
 * Three days of unit time in one process: 300 repairs, each with journal and chain entry. Memory
 * and open files must stay as they were after the first fifty. Run by `node tests/benches/run.js
 * soak`; it takes a quarter of an hour.
 */
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { expect, test } from 'vitest';
import { scratchFolder } from '../cli/process.ts';
import { bundled } from '../emulated/bundled.ts';

const REPAIRS = 300;
const SETTLED_AFTER = 50;
/** A quarter of what one journal of a repair takes as text: a leak of anything per job is more. */
const FLAT_WITHIN_BYTES = 1024 * 1024;

interface Held {
  readonly n: number;
  readonly unitS: number;
  readonly heapBytes: number;
  readonly files: number;
}

test(`memory and open files stay flat over ${REPAIRS} repairs`, async () => {
  const program = await bundled(new URL('soak.ts', import.meta.url), 'soak');
  const { stdout, stderr } = await promisify(execFile)(process.execPath, [
    '--expose-gc',
    program,
    scratchFolder(),
    String(REPAIRS),
  ]);
  expect(stderr).toBe('');
  const held = stdout
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line) as Held);
  const settled = held.find(({ n }) => n === SETTLED_AFTER);
  const last = held.at(-1);
  if (settled === undefined || last === undefined) throw new Error(stdout);
  const mb = (bytes: number): string => `${(bytes / 1024 ** 2).toFixed(2)} MiB`;
  console.info(
    `${last.n} repairs, ${(last.unitS / 3600).toFixed(1)} h of unit time: ` +
      `${mb(settled.heapBytes)} and ${settled.files} open files after ${settled.n} repairs, ` +
      `${mb(last.heapBytes)} and ${last.files} at the end`,
  );
  expect(last.unitS / 3600).toBeGreaterThan(72);
  expect(last.files).toBe(settled.files);
  expect(last.heapBytes - settled.heapBytes).toBeLessThan(FLAT_WITHIN_BYTES);
}, 3_600_000);
