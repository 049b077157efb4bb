/**
 * Finds folders with a journal that has no entry in the chain: jobs that are running or were cut
 * off.
 */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { JOURNAL_FILE } from '../chain/paths.ts';

export function unrecordedJobs(folder: string, ids: ReadonlySet<string>): readonly string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => !ids.has(name) && existsSync(join(folder, name, JOURNAL_FILE)))
    .toSorted();
}
