/** The database as an index: finds the chain's entries in tables, and deletes what is removed. */
import type { Database } from 'better-sqlite3';
import { type ChainEntry, type EntryKind, parseEntry } from '../chain/chain-entry.ts';
import { findRepairs } from './find.ts';
import { catchUp, headOf } from './index-file.ts';
import type { RecordsIndex } from './records-index.ts';
import { deletePersonal } from './store-rows.ts';

export const createDatabaseIndex = (folder: string, database: Database): RecordsIndex => ({
  source: 'database',
  head: () => {
    const { seq, hash } = headOf(database);
    return { seq, hash };
  },
  catchUp: () => catchUp(folder, database, 'strict'),
  find: (filter) => findRepairs(database, filter),
  entries: (kind) => entriesOf(database, kind),
  ofRecord: (id) =>
    database
      .prepare('SELECT line FROM entries WHERE id = ? ORDER BY seq')
      .pluck()
      .all(id)
      .flatMap(entryOfLine),
  keeps: (word) =>
    database.prepare('SELECT 1 FROM personal WHERE value = ?').get(word) !== undefined,
  forget: (seqs) => deletePersonal(database, seqs),
  compact: () => compact(database),
  close: () => database.close(),
});

/**
 * The write-ahead log holds old pages until it is checkpointed into the file. The planner's
 * statistics would hold samples of names too, so this store never has them gathered.
 */
function compact(database: Database): boolean {
  database.exec('VACUUM');
  return database.pragma('wal_checkpoint(TRUNCATE)', { simple: true }) === 0;
}

function entriesOf(database: Database, kind: EntryKind | undefined): readonly ChainEntry[] {
  const select = 'SELECT line FROM entries';
  const lines =
    kind === undefined
      ? database.prepare(`${select} ORDER BY seq`).pluck().all()
      : database.prepare(`${select} WHERE kind = ? ORDER BY seq`).pluck().all(kind);
  return lines.flatMap(entryOfLine);
}

function entryOfLine(line: unknown): readonly ChainEntry[] {
  const entry = typeof line === 'string' ? parseEntry(line) : null;
  return entry === null ? [] : [entry];
}
