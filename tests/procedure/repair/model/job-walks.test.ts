/** Model-based: what jobs do that go any way at all, by a seed of their own and by one that is drawn. */
import { expect, test } from 'vitest';
import { drawnSeed } from '../../../drawn-seed.ts';
import { walkJobs } from './job-walks.ts';
import { STEPS } from './repair-steps.ts';

const BATCH_STATES = [
  'running',
  'holding',
  'held',
  'restarting',
  'stopped',
  'aborting',
  'aborted',
  'complete',
];
const HELD_QUESTIONS = ['leg-grew', 'resin-inside', 'end'];

test('jobs that go any way reach every step and state, and none is a dead end', () => {
  const met = walkJobs({ seed: 20_251_126, walks: 50, commands: 140 });
  const all = [
    ...Object.keys(STEPS),
    ...BATCH_STATES.map((state) => `batch ${state}`),
    ...HELD_QUESTIONS.map((question) => `asks ${question}`),
  ];
  expect(
    all.filter((one) => !met.has(one)),
    'never reached',
  ).toEqual([]);
});

test('the same by another seed each time', () => {
  const seed = drawnSeed();
  console.info(`walks of a job: MENISCUS_SEED=${seed} repeats them`);
  expect(walkJobs({ seed, walks: 10, commands: 80 }).size).toBeGreaterThan(0);
});
