/**
 * `meniscus run --resume` and `--cure-only`: another attempt of an unfinished job. The attempts before
 * it are entered into the chain where they were cut off before their end, so that the new one can
 * name them. `src/app/attempts/` decides where the work is taken up.
 */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import {
  attemptFactsOf,
  laterBy,
  type NextAttempt,
  nextAttempt,
} from '../../app/attempts/next-attempt.ts';
import { type OpenJob, openJobsIn } from '../../app/attempts/open-jobs.ts';
import type { JobFacts } from '../../app/prepare/job-facts.ts';
import type { LoadedSettings } from '../../app/prepare/load-settings.ts';
import type { PrepareOptions } from '../../app/prepare/prepare-run.ts';
import { STEP_NUMBERS } from '../../core/phases.ts';
import { problemLine, type SettingsProblem } from '../../core/settings.ts';
import { makeNewPrivateFolder } from '../../journal/private-file.ts';
import { plainWords } from '../../report/words.ts';
import { attemptId, JOURNAL_FILE } from '../../store/chain/paths.ts';
import { entriesIn } from '../../store/index/chain-index.ts';
import { entryFromJournal } from '../records/entry-from-journal.ts';
import { openToWrite } from '../terminal/this-unit.ts';
import type { Session } from './session.ts';

export interface AttemptOptions extends PrepareOptions {
  /** The job to go on with, or whose resin to cure. */
  readonly resume?: string;
  readonly cureOnly?: string;
  /** Simulated time between the attempts, h. */
  readonly hoursLater: number;
}

export type Attempted = { readonly ok: true; readonly attempt: NextAttempt | null } | Refusal;

/** Null where a new job is asked for. */
export function attemptAsked({ records, resume, cureOnly }: AttemptOptions): Attempted {
  const job = resume ?? cureOnly;
  if (job === undefined) return { ok: true, attempt: null };
  const found = enteredLast(records, job);
  if (!found.ok) return found;
  const planned = nextAttempt(records, job, resume === undefined ? 'cure-only' : 'go-on');
  return planned.ok ? { ok: true, attempt: planned.value } : planned;
}

/** The unfinished job of this name, with its last attempt in the chain; or why there is none. */
export function enteredLast(
  records: string,
  job: string,
): { readonly ok: true; readonly value: OpenJob } | Refusal {
  const jobs = unfinishedJobs(records);
  const open = jobs.find((one) => one.job === job);
  if (open === undefined) {
    const known = jobs.map((one) => one.job);
    const accepted = known.length === 0 ? 'none, as no job is unfinished' : known.join(', ');
    return refusal(
      `${records}: ${JSON.stringify(job)} is no unfinished job; accepted: ${accepted}`,
    );
  }
  if (open.end !== null) return { ok: true, value: open };
  const running = stillWritten(records, open.last);
  if (running !== null) return refusal(running);
  const problem = enterCutOff(records, open.last);
  return problem === null ? { ok: true, value: open } : refusal(problem);
}

interface Refusal {
  readonly ok: false;
  readonly lines: readonly string[];
}

const refusal = (line: string): Refusal => ({ ok: false, lines: [line] });

export const unfinishedJobs = (records: string): readonly OpenJob[] =>
  openJobsIn(records, entriesIn(records));

/** A journal is written to many times a second while its job runs. */
const STILL_S = 5;

function stillWritten(records: string, id: string): string | null {
  const path = join(records, id, JOURNAL_FILE);
  const agoS = (Date.now() - statSync(path).mtimeMs) / 1000;
  return agoS < STILL_S
    ? `${path} was written to ${agoS.toFixed(0)} s ago: its job may still be running; try again in ${STILL_S} s`
    : null;
}

/** Null where it was entered, or else why it could not be. */
function enterCutOff(records: string, id: string): string | null {
  const found = entryFromJournal(records, id);
  if (!found.ok) return `${id}: ${found.why}`;
  const opened = openToWrite(records);
  if (!opened.ok) return opened.problems.map(problemLine).join(' ');
  const { value: store } = opened;
  try {
    const { body, personal } = found;
    store.append({ at: new Date().toISOString(), kind: 'repair', id, body, personal });
    return null;
  } finally {
    store.close();
  }
}

/** The name of its record; its folder is made. */
export function attemptFolder(
  records: string,
  { job, number }: NextAttempt,
): string | SettingsProblem {
  const id = attemptId(job, number);
  try {
    makeNewPrivateFolder(join(records, id));
    return id;
  } catch (error) {
    const value = `not writable (${String(error)})`;
    return { file: join(records, id), path: '', value, accepted: 'a folder that can be made' };
  }
}

/** A simulated attempt begins this long after the last one; a real one at the time that it is. */
export const sessionOf = (
  session: Session,
  attempt: NextAttempt,
  { hoursLater }: Pick<AttemptOptions, 'hoursLater'>,
): Session =>
  session.seed === null
    ? session
    : { ...session, startedAt: laterBy(attempt.endedAt, hoursLater * 3600) };

export const withEntry = (settings: LoadedSettings, { entry }: NextAttempt): LoadedSettings =>
  entry === null ? settings : { ...settings, config: { ...settings.config, entry } };

export const withAttempt = (
  about: JobFacts,
  attempt: NextAttempt,
  startedAt: string,
): JobFacts => ({
  ...about,
  attempt: attemptFactsOf(attempt, startedAt),
});

/** What a person should know before the attempt begins. */
export function attemptLines(
  { job, number, how, entry, resinStood }: NextAttempt,
  simulated: boolean,
): readonly string[] {
  const where =
    entry === null
      ? 'nothing was pressed into the break yet, so it begins again from the start'
      : `it goes on at ${STEP_NUMBERS[entry.at]} ${plainWords(entry.at)}${how === 'cure-only' ? ', to cure only' : ''}`;
  return [
    `${job}, attempt ${number}: ${where}`,
    ...(resinStood
      ? ['the resin stood in between without its full light: the record says so']
      : []),
    ...(simulated && entry !== null
      ? ['the simulated break begins unfilled: the model does not carry it from attempt to attempt']
      : []),
  ];
}

const MOST_TOLD = 3;

/** Said before a new job: what is unfinished, and what can be done about it. */
export function unfinishedLines(jobs: readonly OpenJob[]): readonly string[] {
  const told = jobs
    .slice(-MOST_TOLD)
    .flatMap(({ job, end }) => [
      `${job} is unfinished: ${end === null ? 'it was cut off, or still runs' : end.why}`,
      `  meniscus run --resume ${job} | --cure-only ${job}, or: meniscus jobs close ${job} --reason TEXT --by NAME`,
    ]);
  const more = jobs.length - MOST_TOLD;
  return more > 0 ? [...told, `${more} more unfinished: meniscus jobs list`] : told;
}
