/**
 * Speed of whole demo repairs on the simulated board, in the program as people run it: the first
 * repair, for which the engine still has to compile its code, and every later one in the same
 * process. Controller and plant run in full; no journal, no panel. Run by `node
 * tests/benches/run.js speed`.
 */
import { afterAll, expect, test } from 'vitest';
import type { RunResult } from '../../src/cli/run/simulated-run.ts';
import { runProgram, scratchFolder } from '../cli/process.ts';

const REPAIRS = 30;
/** Of real time, on one core. */
const LEAST_TIMES = 2000;

const lines: string[] = [];
afterAll(() => console.info(lines.join('\n')));

async function series(runs: number): Promise<{ readonly boardS: number; readonly wallS: number }> {
  const from = performance.now();
  const { out } = await runProgram(['simulate', '--runs', `${runs}`, '--json'], scratchFolder());
  const wallS = (performance.now() - from) / 1000;
  const [{ runs: results }] = JSON.parse(out) as [{ runs: readonly RunResult[] }];
  return { wallS, boardS: results.reduce((sum, { boardS }) => sum + boardS, 0) };
}

test(`a further repair runs ${LEAST_TIMES} times as fast as real time`, async () => {
  await series(1);
  const [one, many] = [await series(1), await series(REPAIRS)];
  const first = one.boardS / one.wallS;
  const further = (many.boardS - one.boardS) / (many.wallS - one.wallS);
  lines.push(`one repair, start of the program and all: ${first.toFixed(0)} x real time`);
  lines.push(`each of ${REPAIRS - 1} further ones: ${further.toFixed(0)} x real time`);
  expect(further).toBeGreaterThanOrEqual(LEAST_TIMES);
});
