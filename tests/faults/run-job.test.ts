/** A job that is copied at a moment goes on as the first one would have, and apart from it. */
import { expect, test } from 'vitest';
import { JOBS } from './jobs.ts';
import { momentsOf } from './moments.ts';
import { beginJob } from './run-job.ts';

test('a copy without a fault ends with the events and the light of the job itself', () => {
  const sound = beginJob(JOBS.apart, 3);
  for (let n = 0; n < 2000; n++) sound.tick();
  const copy = sound.fork([], null);
  const spoilt = sound.fork([{ kind: 'hose-off', from: { atS: 0 } }], null);
  for (let n = 0; n < 400; n++) spoilt.tick();
  let ended = false;
  while (!ended) {
    sound.tick();
    ended = copy.tick().state.ended;
  }
  expect(copy.log.events).toEqual(sound.log.events);
  expect(copy.board.view().truth.resinDose).toEqual(sound.board.view().truth.resinDose);
  expect(copy.log.ticks.at(-1)).toEqual(sound.log.ticks.at(-1));
  expect(spoilt.log.events).not.toEqual(sound.log.events.slice(0, spoilt.log.events.length));
});

test('there is a moment in every phase of a sound repair', () => {
  const phases = new Set(momentsOf(1).map(({ phase }) => phase));
  // Those that only a leak, water, bubbles or a break that stays dark lead to are not among them.
  const missing = ['reseat', 'dry-again', 'long-pull', 'test-again', 'bubbles-stay'];
  for (const phase of missing) expect(phases).not.toContain(phase);
  expect(phases.size).toBeGreaterThanOrEqual(32);
});
