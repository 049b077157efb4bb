/** Kills programs that write a journal, at moments of their run, and reads what is left. */
import { once } from 'node:events';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import { createChance } from '../../sim/random.ts';
import { readJournal } from '../../src/journal/read-journal.ts';
import { bundled, startNode } from '../emulated/bundled.ts';

/** Frames a second of unit time. */
const FRAMES_PER_S = 20;

interface Killed {
  /** Frames that the program had worked through when it died. */
  readonly worked: number;
  /** Of these the frames in the journal that it left; null where there is no journal yet. */
  readonly written: number | null;
  readonly closed: boolean;
}

async function killedAt(program: string, frames: number): Promise<Killed> {
  const folder = mkdtempSync(join(tmpdir(), 'killed-'));
  const path = join(folder, 'journal.jsonl');
  const child = startNode(program, [path]);
  let out = '';
  child.stdout?.on('data', (data) => {
    out = (out + data).slice(-200);
    const at = Number(out.split('\n').at(-2));
    if (at >= frames) child.kill('SIGKILL');
  });
  await once(child, 'close');
  const lines = out.split('\n').slice(0, -1);
  const closed = lines.includes('closed');
  const worked = Number(lines.filter((line) => line !== 'closed').at(-1) ?? 0);
  const written = existsSync(path) ? framesIn(path, closed) : null;
  rmSync(folder, { recursive: true });
  return { worked, written, closed };
}

function framesIn(path: string, closed: boolean): number {
  const read = readJournal(readFileSync(path, 'utf8'), path);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  expect(read.value.end.reason).toBe(closed ? 'completed' : 'interrupted');
  return read.value.ticks.length;
}

/**
 * At most one second of each killed run is missing, and every journal is readable. The moments are
 * drawn from the first `frames` of the job.
 */
export async function expectLittleLost(kills: number, frames: number, seed: number) {
  const program = await bundled(new URL('ticking.ts', import.meta.url), 'ticking');
  const chance = createChance(seed, 'noise');
  const moments = Array.from({ length: kills }, () => Math.floor(frames * chance.uniform()));
  const killed: Killed[] = [];
  const work = async (): Promise<void> => {
    for (let at = moments.pop(); at !== undefined; at = moments.pop()) {
      killed.push(await killedAt(program, at));
    }
  };
  await Promise.all([work(), work()]);
  const most = Math.max(...killed.map(({ worked, written }) => worked - (written ?? 0)));
  console.info(`killed ${kills} runs: at most ${(most / FRAMES_PER_S).toFixed(2)} s lost`);
  expect(killed).toHaveLength(kills);
  expect(killed.filter(({ closed }) => closed)).toEqual([]);
  expect(most).toBeLessThanOrEqual(FRAMES_PER_S);
}
