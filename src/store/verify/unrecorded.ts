/** Folders with a journal that no entry of the chain knows: jobs that run now, or were cut off. */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { JOURNAL_FILE } from '../chain/paths.ts';

export function unrecordedJobs(folder: string, ids: ReadonlySet<string>): readonly string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => !ids.has(name) && existsSync(join(folder, name, JOURNAL_FILE)))
    .toSorted();
}
