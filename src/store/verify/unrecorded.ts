/**
 * Finds folders with a journal that has no entry in the chain: jobs that are running or were cut
 * off.
 */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { attemptId, JOURNAL_FILE } from '../chain/paths.ts';

export function unrecordedJobs(folder: string, ids: ReadonlySet<string>): readonly string[] {
  if (!existsSync(folder)) return [];
  const jobs = readdirSync(folder).filter((name) => existsSync(join(folder, name, JOURNAL_FILE)));
  return jobs
    .flatMap((job) => attemptsIn(folder, job))
    .filter((id) => !ids.has(id))
    .toSorted();
}

/** The records of a job that have a journal, in order: its first attempt, and later ones. */
export function attemptsIn(folder: string, job: string): readonly string[] {
  const found: string[] = [];
  for (let number = 1; ; number++) {
    const id = attemptId(job, number);
    if (!existsSync(join(folder, id, JOURNAL_FILE))) return found;
    found.push(id);
  }
}
