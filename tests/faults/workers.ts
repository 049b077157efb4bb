/**
 * Spreads cases over all cores: each worker is the same program, takes a handful of ids at a time,
 * makes the sound jobs of their seeds once, and answers with results.
 */
import { availableParallelism } from 'node:os';
import { parentPort, Worker } from 'node:worker_threads';
import { caseOf } from './cases.ts';
import { type HealthyResult, runHealthy } from './healthy.ts';
import type { CaseResult } from './judge.ts';
import { type Case, resultOf } from './try-case.ts';
import { EMULATED, runEmulated } from './try-emulated.ts';

export type Answer =
  | { readonly kind: 'case'; readonly result: CaseResult }
  | { readonly kind: 'healthy'; readonly result: HealthyResult };

/** Few enough that the last worker is not waited for, many enough that messages cost nothing. */
const AT_A_TIME = 8;
const HEALTHY = 'healthy/';
export const healthyId = (seed: number): string => `${HEALTHY}${seed}`;

async function answerOf(id: string): Promise<Answer> {
  if (id.startsWith(EMULATED)) return { kind: 'case', result: await runEmulated(id) };
  if (id.startsWith(HEALTHY)) {
    return { kind: 'healthy', result: runHealthy(Number(id.slice(HEALTHY.length))) };
  }
  return { kind: 'case', result: known(caseOf(id)) };
}

const results = new Map<string, CaseResult>();

/** Cases of one row come one after the other, and the later ones are often known by then. */
function known(one: Case): CaseResult {
  const before = results.get(one.id);
  if (before !== undefined) return before;
  const result = resultOf(one, known);
  results.set(one.id, result);
  return result;
}

/** What a worker does; nothing in the main thread. */
export function answerTheMainThread(): void {
  parentPort?.on('message', async (ids: readonly string[]) => {
    const answers: Answer[] = [];
    for (const id of ids) answers.push(await answerOf(id));
    parentPort?.postMessage(answers);
  });
}

/** Answers in no certain order; the caller sorts. `program` is the file that runs. */
export function answersTo(
  program: string,
  ids: readonly string[],
  onProgress: (done: number, come: readonly Answer[]) => void,
): Promise<readonly Answer[]> {
  const answers: Answer[] = [];
  let next = 0;
  return new Promise((resolve, reject) => {
    const workers = Array.from({ length: availableParallelism() }, () => new Worker(program));
    const give = (worker: Worker): void => {
      if (next >= ids.length) return void worker.terminate();
      worker.postMessage(ids.slice(next, next + AT_A_TIME));
      next += AT_A_TIME;
    };
    for (const worker of workers) {
      worker.on('error', reject);
      worker.on('message', (come: readonly Answer[]) => {
        answers.push(...come);
        onProgress(answers.length, come);
        if (answers.length === ids.length) resolve(answers);
        give(worker);
      });
      give(worker);
    }
    if (ids.length === 0) resolve([]);
  });
}
