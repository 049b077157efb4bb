/** The database as an index: finds the chain's entries in tables, and deletes what is removed. */
import { type ChainEntry, type EntryKind, parseEntry } from '../chain/chain-entry.ts';
import { findRepairs } from './find.ts';
import { catchUp, headOf } from './index-file.ts';
import type { RecordsIndex } from './records-index.ts';
import type { Database } from './sqlite.ts';
import { pragmaOf } from './statements.ts';
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
      .all(id)
      .flatMap(entryOfRow),
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
  return pragmaOf(database, 'wal_checkpoint(TRUNCATE)') === 0;
}

function entriesOf(database: Database, kind: EntryKind | undefined): readonly ChainEntry[] {
  const select = 'SELECT line FROM entries';
  const rows =
    kind === undefined
      ? database.prepare(`${select} ORDER BY seq`).all()
      : database.prepare(`${select} WHERE kind = ? ORDER BY seq`).all(kind);
  return rows.flatMap(entryOfRow);
}

function entryOfRow(row: unknown): readonly ChainEntry[] {
  const { line } = row as { readonly line: unknown };
  const entry = typeof line === 'string' ? parseEntry(line) : null;
  return entry === null ? [] : [entry];
}
