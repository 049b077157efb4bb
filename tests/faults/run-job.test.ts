/** A job that is copied at a moment goes on as the first one would have, and apart from it. */
import { expect, test } from 'vitest';
import { caseOf } from './cases.ts';
import { JOBS } from './jobs.ts';
import type { CaseResult } from './judge.ts';
import { plannedMoments } from './moments.ts';
import { beginJob } from './run-job.ts';
import { type Case, resultOf, runCase } from './try-case.ts';

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
  const phases = new Set(plannedMoments(1).map(({ phase }) => phase));
  // Those that only a leak, water, bubbles or a break that stays dark lead to are not among them.
  const missing = ['reseat', 'dry-again', 'long-pull', 'test-again', 'bubbles-stay'];
  for (const phase of missing) expect(phases).not.toContain(phase);
  expect(phases.size).toBeGreaterThanOrEqual(32);
});

test.each(['together.self-test.1', 'apart.cover-fill.1'])(
  'a sound job from %s on shows every claim, and nothing false',
  (id) => {
    const moment = caseOf(`1/pump-dead@${id}`).parts[0]?.moment;
    if (moment === undefined) throw new Error(`no moment ${id}`);
    const none = { id: 'none', title: 'no fault', faults: [] };
    const { result, report } = runCase({ id, parts: [{ row: none, moment }] });
    expect(report.claims.filter(({ state }) => state !== 'shown')).toEqual([]);
    expect(result.foundBy).toBe(null);
    expect(result.falseClaims).toEqual([]);
  },
);

test('a fault without effect until later has the result of its own whole run', () => {
  const one = caseOf('1/lamp-dead@together.seal-watch.2');
  const asked: string[] = [];
  const known = (later: Case): CaseResult => {
    asked.push(later.id);
    return resultOf(later, known);
  };
  const { foundAfterS, ...result } = resultOf(one, known);
  const whole = runCase(one).result;
  expect(asked.length).toBeGreaterThan(3);
  expect({ ...result, foundAfterS: whole.foundAfterS }).toEqual(whole);
  expect(foundAfterS).toBeCloseTo(whole.foundAfterS ?? 0, 6);
});
