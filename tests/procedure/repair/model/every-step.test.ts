/**
 * From every step of a repair: HOLD, the stop, Ctrl-C and a loss of power, and then on. Each makes
 * safe at once, each is an end with a reason or leaves a job that goes on, and nowhere is a dead end.
 */
import { describe, expect, test } from 'vitest';
import { PHASE_IDS } from '../../../../src/core/phases.ts';
import { WAYS_ON } from '../../../../src/procedure/repair/reentry.ts';
import {
  emergencyStop,
  hold,
  interrupt,
  type Job,
  jobIn,
  nextAttempt,
  passJob,
} from './modelled-job.ts';
import { finish, giveUp, letGoOn } from './patient-person.ts';
import { STEPS } from './repair-steps.ts';

test('the model has a row for every phase, and none besides', () => {
  const rows = Object.keys(STEPS);
  const missing = PHASE_IDS.filter((phase) => !rows.includes(phase));
  expect(missing, 'phases without a row in repair-steps.ts').toEqual([]);
  expect(rows.filter((step) => !PHASE_IDS.some((phase) => phase === step))).toEqual([]);
});

/** All that a person's answers depend on: what was finished from there once need not be again. */
function standingOf({ unit }: Job): string {
  const { batch, procedure, why } = unit.state;
  const { profile, job } = unit.config;
  const kind = [profile.curing, job.damage.type];
  const { elapsedS: _, air, rise, ...walk } = procedure;
  const exact = Object.entries(walk).filter(([name]) => !/(S|Pa|PaM3PerS|M3PerS)$/.test(name));
  return JSON.stringify([batch, kind, unit.config.entry?.at ?? null, why?.asks ?? null, exact]);
}
const finished = new Set<string>();

function canBeFinished(job: Job): void {
  const standing = standingOf(job);
  if (finished.has(standing)) return;
  finish(job);
  finished.add(standing);
}

/** Every attempt that may come after leads to the end of the job. */
function canBeGoneOnWith(job: Job): void {
  for (const way of WAYS_ON) {
    const next = nextAttempt(job, way);
    if (next !== null) canBeFinished(next);
  }
}

const endOf = ({ unit }: Job) => {
  const end = unit.log.findLast(({ kind }) => kind === 'end');
  return end?.kind === 'end' ? end.reason : null;
};
const batchOf = ({ unit }: Job) => unit.state.batch;

/** A full chamber of this unit is at the air's pressure in less. */
const AT_REST_IN_S = 10;
/** Just entered, and at work. */
const AFTER_S = [0, 0.7];

describe.each(PHASE_IDS)('from %s', (phase) => {
  const each = (look: (there: Job) => void) => {
    for (const s of AFTER_S) look(s === 0 ? jobIn(phase) : passJob(jobIn(phase), s, () => false));
  };

  test('HOLD holds the job, which is finished from there, or ended with its reason', () => {
    each((there) => {
      const held = passJob(hold(there), AT_REST_IN_S, (now) => batchOf(now) === 'held');
      expect(batchOf(held)).toBe('held');
      expect(endOf(giveUp(held))).toBe('stopped-by-person');
      canBeFinished(held);
    });
  });

  test('HOLD holds the job again in the second in which it restarts', () => {
    const held = passJob(hold(jobIn(phase)), AT_REST_IN_S, (now) => batchOf(now) === 'held');
    const restarting = letGoOn(held);
    expect(batchOf(restarting)).toBe('restarting');
    expect(batchOf(hold(restarting))).toMatch(/^h(olding|eld)$/);
  });

  test('the stop ends the job with its reason, and another attempt finishes it', () => {
    each((there) => {
      const over = passJob(emergencyStop(there), AT_REST_IN_S, (now) => batchOf(now) === 'aborted');
      expect(batchOf(over)).toBe('aborted');
      expect(endOf(giveUp(over))).toBe('alarm');
      canBeGoneOnWith(over);
    });
  });

  test('Ctrl-C ends the job with its reason, and another attempt finishes it', () => {
    each((there) => {
      const over = passJob(interrupt(there), AT_REST_IN_S, ({ unit }) => unit.state.ended);
      expect(endOf(over)).toBe('interrupted');
      canBeGoneOnWith(over);
    });
  });

  test('the power may be lost, and another attempt finishes the job', () => {
    each(canBeGoneOnWith);
  });
});
