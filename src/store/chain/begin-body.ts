/**
 * What the chain keeps of a job or care procedure that begins: the first line of its journal, by
 * its hash. A job that was begun can then not disappear with its folder unseen, whatever became of
 * it.
 */
import { createHash } from 'node:crypto';
import { closeSync, openSync, readSync } from 'node:fs';
import { join, relative } from 'node:path';
import type { JournalHeader } from '../../journal/journal-format.ts';
import { isSimulated } from '../../report/report-data.ts';
import type { JsonValue } from './chain-entry.ts';
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
    journal: { file, headerSha256: headerSha256(path) },
  };
}

const BLOCK_BYTES = 64 * 1024;
const LINE_FEED = 0x0a;

/** Throws where the file cannot be read. */
export function headerSha256(path: string): string {
  const file = openSync(path, 'r');
  try {
    const hash = createHash('sha256');
    const block = Buffer.alloc(BLOCK_BYTES);
    for (;;) {
      const taken = block.subarray(0, readSync(file, block, 0, BLOCK_BYTES, null));
      const end = taken.indexOf(LINE_FEED);
      hash.update(end < 0 ? taken : taken.subarray(0, end));
      if (end >= 0 || taken.length === 0) return hash.digest('hex');
    }
  } finally {
    closeSync(file);
  }
}
