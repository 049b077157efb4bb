/** Many more jobs that go any way, and the shortest walk to whatever goes wrong in one. */
import { expect, test } from 'vitest';
import { drawnSeed } from '../../../drawn-seed.ts';
import { walkJobs } from './job-walks.ts';

const LONGEST_MS = 3_600_000;

test(
  'no job that goes any way comes to a dead end',
  () => {
    const seed = drawnSeed();
    console.info(`long walks of a job: MENISCUS_SEED=${seed} repeats them`);
    const met = walkJobs({ seed, walks: 600, commands: 300, shrinks: true });
    expect(met).toContain('batch complete');
  },
  LONGEST_MS,
);
