/**
 * A person who does what the display asks, until the job is over: from wherever a job stands, such a
 * person must come to an end, and to the end of the job where anything may go on from it.
 */
import { type Button, isSafe } from '../../../../src/core/frame.ts';
import type { Repair } from '../../../../src/procedure/repair/repair-state.ts';
import { foremost } from '../../../../src/safety/alarms.ts';
import type { Unit } from '../../../steered-unit.ts';
import { isForPerson, type Job, passJob, press } from './modelled-job.ts';

/** The questions that are answered with NO by a person who leads the job on, and by others. */
const LEADS_ON_BY_NO = ['ask-bubbles', 'measure-leg'];
const NO_TO = {
  sound: LEADS_ON_BY_NO,
  'sees no clear break': [...LEADS_ON_BY_NO, 'ask-clear'],
  'wants no remedy': [...LEADS_ON_BY_NO, 'ask-clear', 'offer-remedy', 'offer-cycle', 'accept-mark'],
  ends: LEADS_ON_BY_NO,
} as const;
export type Manner = keyof typeof NO_TO;
export const MANNERS: readonly Manner[] = ['sound', 'sees no clear break', 'wants no remedy'];

const asksOf = ({ state }: Unit<Repair>) => state.why?.asks ?? null;

function answerOf({ unit, model }: Job, manner: Manner): Button {
  if (foremost(unit.state.alarms) !== null) return 'yes';
  // A page of help is closed first: YES leads back.
  if (unit.state.batch === 'running' && unit.state.page !== null) return 'yes';
  const no: readonly string[] = NO_TO[manner];
  if (unit.state.batch === 'running' && no.includes(model.step)) return 'no';
  if (unit.state.batch !== 'held') return 'yes';
  const asks = asksOf(unit);
  const ends = manner === 'ends' || !model.mayGoOn;
  if (asks === 'end') return ends ? 'yes' : 'no';
  if (asks !== null) return 'no';
  return ends ? 'no' : 'yes';
}

/** More than the longest job has. */
const MOST_PRESSES = 150;
const LONGEST_WAIT_S = 400;
const PATIENT_S = 20;

const isRefused = ({ unit }: Job): boolean =>
  unit.step?.events.some((event) => event.kind === 'refused' && event.request === 'go on') ?? false;

/** For so many presses, or to the end. */
export function leadOn(job: Job, manner: Manner, presses = MOST_PRESSES): Job {
  let now = job;
  for (let n = 0; n < presses; n++) {
    now = passJob(now, LONGEST_WAIT_S, isForPerson);
    if (now.unit.state.ended) return now;
    now = press(now, answerOf(now, manner));
    // The cause still stands: it needs time, not another press.
    if (isRefused(now)) now = passJob(now, PATIENT_S, () => false);
  }
  return now;
}

/** Until the press that lets a held job go on. */
export function letGoOn(held: Job): Job {
  let now = held;
  for (let n = 0; n < MOST_PRESSES && now.unit.state.batch !== 'restarting'; n++) {
    now = leadOn(now, 'sound', 1);
  }
  return now;
}

function endOf({ unit }: Job): { readonly reason: string; readonly why: string } | null {
  const end = unit.log.findLast(({ kind }) => kind === 'end');
  return end?.kind === 'end' ? end : null;
}

const whereOf = ({ model, unit, attempt }: Job): string =>
  `${model.step} (${unit.state.batch}) of attempt ${attempt}`;

/** To its very end, done. */
export function finish(job: Job): Job {
  const done = leadOn(job, 'sound');
  if (endOf(done)?.reason !== 'completed') {
    const end = endOf(done)?.reason ?? 'nothing';
    throw new Error(`no way on from ${whereOf(job)}: it came to ${end} in ${whereOf(done)}`);
  }
  return checkedEnd(done);
}

/** Held first, where it is not, and ended with a reason. */
export function giveUp(held: Job): Job {
  const done = leadOn(held, 'ends');
  if (endOf(done) === null) throw new Error(`no end from ${whereOf(held)}: ${whereOf(done)}`);
  return checkedEnd(done);
}

function checkedEnd(job: Job): Job {
  const { why = '' } = endOf(job) ?? {};
  if (job.model.ends !== 1) throw new Error(`${whereOf(job)} ended ${job.model.ends} times`);
  if (why.trim() === '') throw new Error(`the end of ${whereOf(job)} has no reason`);
  if (!isSafe(job.unit.state.commanded)) throw new Error(`the end of ${whereOf(job)} is not safe`);
  return job;
}
