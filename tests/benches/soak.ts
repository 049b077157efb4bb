/**
 * A program of its own that runs repairs one after another, each with its journal on disk and its
 * entry in the chain, and prints after every tenth how much memory and how many open files it holds.
 */
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { getHeapCodeStatistics } from 'node:v8';
import { readJournal } from '../../src/journal/read-journal.ts';
import { openRecords } from '../../src/store/records-store.ts';
import { repairInto } from '../journal/journaled-repair.ts';

const [folder = '', repairs = '0'] = process.argv.slice(2);
const opened = openRecords(folder);
if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
const store = opened.value;

/** Unit time, s. */
function repair(seed: number): number {
  const path = join(folder, `journal-${seed}.jsonl`);
  repairInto(path, seed);
  const read = readJournal(readFileSync(path, 'utf8'), path);
  if (!read.ok || read.value.intact !== true) throw new Error(`${path} is not intact`);
  store.append({
    at: '2026-03-01T09:00:00.000Z',
    kind: 'care',
    id: `repair-${seed}`,
    body: { sha256: read.value.sha256 },
    personal: null,
  });
  rmSync(path);
  return read.value.ticks.at(-1)?.frame.timeS ?? 0;
}

/**
 * Data held, without the machine code that the engine goes on making for hours. A buffer outside
 * the heap is freed only in the turn after its owner was collected, hence twice.
 */
async function heldBytes(): Promise<number> {
  for (let i = 0; i < 2; i++) {
    globalThis.gc?.();
    await new Promise((resolve) => setImmediate(resolve));
  }
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external - getHeapCodeStatistics().code_and_metadata_size;
}

let unitS = 0;
for (let n = 1; n <= Number(repairs); n++) {
  unitS += repair(n);
  // Lets finished disk writes call back, as between two jobs.
  await new Promise((resolve) => setImmediate(resolve));
  if (n % 10 !== 0) continue;
  const files = readdirSync('/proc/self/fd').length;
  console.info(JSON.stringify({ n, unitS, heapBytes: await heldBytes(), files }));
}
store.close();
