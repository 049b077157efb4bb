/**
 * The list of jobs that wait for the unit: a folder with a folder for each, numbered in the order in
 * which they were added. What became of a job is read from the records, so that the list itself is
 * never changed by running one.
 */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { textAt } from '../../core/fields.ts';
import { attemptsIn } from '../../store/verify/unrecorded.ts';
import { readJson } from '../prepare/read-settings.ts';

/** The files of a job, by the option that takes each. */
export const JOB_FILES = {
  job: 'job.json',
  profile: 'profile.json',
  intake: 'intake.json',
  resin: 'resin.json',
  pitResin: 'pit-resin.json',
} as const;
export type JobFile = keyof typeof JOB_FILES;

export interface WaitingJob {
  readonly folder: string;
  readonly number: number;
  /** The name that its record gets. */
  readonly name: string;
  readonly vehicle: string | null;
  readonly files: Readonly<Partial<Record<JobFile, string>>>;
}

const NUMBERED = /^(\d{3,})-(.+)$/;

/** Every job of the list in its order, also those that were begun. */
export function listedJobs(list: string): readonly WaitingJob[] {
  if (!existsSync(list)) return [];
  return readdirSync(list)
    .flatMap((entry) => {
      const [, number, name] = NUMBERED.exec(entry) ?? [];
      return number === undefined || name === undefined
        ? []
        : [listed(join(list, entry), Number(number), name)];
    })
    .toSorted((one, other) => one.number - other.number);
}

/** Those of which the records know no attempt. */
export const waitingJobs = (list: string, records: string): readonly WaitingJob[] =>
  listedJobs(list).filter(({ name }) => attemptsIn(records, name).length === 0);

function listed(folder: string, number: number, name: string): WaitingJob {
  const files = Object.fromEntries(
    Object.entries(JOB_FILES)
      .map(([option, file]) => [option, join(folder, file)] as const)
      .filter(([, path]) => existsSync(path)),
  );
  const sheet = readJson(join(folder, JOB_FILES.job));
  return { folder, number, name, vehicle: sheet.ok ? textAt(sheet.value, 'vehicle') : null, files };
}
