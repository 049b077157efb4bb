/**
 * A program of its own that runs repairs one after another, each with its journal on disk and its
 * entry in the chain, and says after every tenth what memory and open files it holds.
 */
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { createSimulatedBoard } from '../../sim/board/simulated-board.ts';
import { journalConsumer } from '../../src/app/journal-consumer.ts';
import { createPipeline } from '../../src/app/pipeline.ts';
import { createJournal } from '../../src/journal/journal.ts';
import { readJournal } from '../../src/journal/read-journal.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import { openRecords } from '../../src/store/records-store.ts';
import { scenarioFor } from '../bench.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { headerOf } from '../report/journal-data.ts';

const [folder = '', repairs = '0'] = process.argv.slice(2);
const fail = (error: unknown): never => {
  throw error;
};
const opened = openRecords(folder);
if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
const store = opened.value;

/** Unit time, s. */
function repair(seed: number): number {
  const path = join(folder, `journal-${seed}.jsonl`);
  const journal = createJournal({ path, header: headerOf(), onError: fail });
  const board = createSimulatedBoard(scenarioFor({ seed }));
  const job: { over: boolean } = { over: false };
  const pipeline = createPipeline(
    board,
    REPAIR,
    DEFAULT_CONFIG,
    [{ name: 'journal', follow: journalConsumer(journal, (snapshot) => snapshot) }],
    {
      onConsumerError: (_, error) => fail(error),
      onFault: fail,
      onEnd: () => {
        job.over = true;
      },
    },
  );
  while (!job.over) board.tick();
  pipeline.close();
  journal.close({ reason: 'completed', why: 'demo', outcome: 'clear' });
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

let unitS = 0;
for (let n = 1; n <= Number(repairs); n++) {
  unitS += repair(n);
  // Lets finished writes of the disk call back, as between two jobs.
  await new Promise((resolve) => setImmediate(resolve));
  if (n % 10 !== 0) continue;
  globalThis.gc?.();
  const { heapUsed, external } = process.memoryUsage();
  const files = readdirSync('/proc/self/fd').length;
  console.info(JSON.stringify({ n, unitS, heapBytes: heapUsed + external, files }));
}
store.close();
