/**
 * Jobs that go any way: from a unit at rest, by commands that fast-check draws. After each walk a
 * person must be able to end the job with a reason, and to bring it to its end wherever it may go on.
 */
import fc from 'fast-check';
import type { RepairConfig } from '../../../../src/procedure/repair/repair-state.ts';
import { APART, TOGETHER } from '../../../control/apart-driver.ts';
import { FILL_PASSES } from '../../../light-path.ts';
import { AT_CRACK } from '../../../steering.ts';
import { jobCommands, type Walk } from './job-commands.ts';
import { hold, type Job, newJob, nextAttempt, passJob } from './modelled-job.ts';
import { finish, giveUp } from './patient-person.ts';

/** Three positions of the injector and two fields of the lamp, each cured in some 11 s. */
const ALONG: RepairConfig = {
  ...AT_CRACK,
  profile: {
    ...AT_CRACK.profile,
    cure: { ...AT_CRACK.profile.cure, targetAtResinJPerM2: 2000 * FILL_PASSES, leastS: 5 },
  },
  job: { ...AT_CRACK.job, damage: { ...AT_CRACK.job.damage, depthM: 0.1e-3 } },
};
const CONFIGS = { apart: APART, together: TOGETHER, along: ALONG } as const;
const SITES = {
  'at sea level': {},
  'with a cold pane': { cold: true },
  'at 2,000 m': { airPa: 79_500 },
  'brought up to 2,000 m': { airPa: 79_500, airLastJobPa: 100_600 },
} as const;
const oneOf = <T extends object>(table: T) =>
  fc.constantFrom(...(Object.keys(table) as (keyof T)[]));

export interface WalkOptions {
  readonly seed: number;
  readonly walks: number;
  readonly commands: number;
  /** Looks for the shortest walk that fails, which takes minutes. */
  readonly shrinks?: boolean;
}

/** What all walks together met: steps, batch states, questions of a held job. */
export function walkJobs({
  seed,
  walks,
  commands,
  shrinks = false,
}: WalkOptions): ReadonlySet<string> {
  const met = new Set<string>();
  fc.assert(
    fc.property(oneOf(CONFIGS), oneOf(SITES), jobCommands(commands), (cured, site, drawn) => {
      const walk: Walk = { job: newJob(CONFIGS[cured], SITES[site]), met };
      fc.modelRun(() => ({ model: {}, real: walk }), drawn);
      isNoDeadEnd(walk.job);
    }),
    { seed, numRuns: walks, endOnFailure: !shrinks },
  );
  return met;
}

const endOf = ({ unit }: Job) => {
  const end = unit.log.findLast(({ kind }) => kind === 'end');
  return end?.kind === 'end' ? end.reason : null;
};

function isNoDeadEnd(job: Job): void {
  const over = job.model.batch === 'over';
  const ended = job.unit.state.ended
    ? job
    : giveUp(over ? job : passJob(hold(job), 1, () => false));
  if (endOf(ended) === null) throw new Error(`${job.model.step} ends without a reason`);
  if (over || !job.model.mayGoOn) {
    if (endOf(ended) === 'completed') return;
    const next = nextAttempt(ended, 'go-on');
    if (next !== null) finish(next);
    return;
  }
  finish(job);
}
