/**
 * What the chain keeps of a job or care procedure that begins: the first line of its journal, by
 * its hash. A job that was begun can then not disappear with its folder unseen, whatever became of
 * it.
 */
import { join, relative } from 'node:path';
import type { JournalHeader } from '../../journal/journal-format.ts';
import { isSimulated } from '../../report/report-data.ts';
import type { JsonValue } from './chain-entry.ts';
import { firstLineSha256 } from './file-sha256.ts';
import { JOURNAL_FILE } from './paths.ts';

export const BEGIN_SCHEMA = 'meniscus/begin@1';

export interface BeginBody {
  readonly [key: string]: JsonValue;
  readonly schema: typeof BEGIN_SCHEMA;
  readonly startedAt: string;
  readonly simulated: boolean;
  readonly serial: string | null;
  /** Relative to the folder of records, and the hash of its first line without the line feed. */
  readonly journal: { readonly file: string; readonly headerSha256: string };
}

/** `folder` is that of the journal, in the folder of records. */
export function beginBodyOf(
  records: string,
  folder: string,
  header: Pick<JournalHeader, 'startedAt' | 'seed' | 'board'>,
): BeginBody {
  const { startedAt, board } = header;
  const path = join(folder, JOURNAL_FILE);
  const file = relative(records, path).replaceAll('\\', '/');
  return {
    schema: BEGIN_SCHEMA,
    startedAt,
    simulated: isSimulated(header),
    serial: board.serial,
    journal: { file, headerSha256: firstLineSha256(path) },
  };
}
