/**
 * The facade of a folder of records: append to the chain, find, show. The chain is the record; the
 * database is an index over it and may fail without harm: an append that the index cannot take is in
 * the chain all the same, and reading goes on from the chain. Verifying, rebuilding, removing and
 * exporting are in files of their own.
 */
import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import type { Checked } from '../../settings.ts';
import { makePrivateFolder } from '../private-file.ts';
import { type AppendDraft, appendEntry } from './append.ts';
import { CHAIN_START, type ChainEntry, type EntryKind, parseEntry } from './chain-entry.ts';
import { closeRecords } from './close-records.ts';
import { eachRepair, type FoundRepair, findRepairs, type RecordFilter } from './find.ts';
import {
  catchUp,
  headOf,
  type Index,
  indexInMemory,
  isDatabaseError,
  openIndex,
  personalFieldsOf,
} from './index-file.ts';
import { deletePersonal } from './store-rows.ts';

export interface OpenOptions {
  /** Only reads; the folder must be there. */
  readonly readOnly?: boolean;
  /** Salt for personal data; random unless a simulated run derives its own. */
  readonly newSalt?: () => string;
}

export interface ShownEntry {
  readonly entry: ChainEntry;
  /** Null where there are none, or they were removed or do not keep to their hash. */
  readonly personal: Readonly<Record<string, string>> | null;
}

export interface ShownRecord {
  readonly id: string;
  /** Null where the record is no repair. */
  readonly repair: FoundRepair | null;
  /** All of this record in order: the repair itself, amendments, removals. */
  readonly entries: readonly ShownEntry[];
}

export interface RecordsStore {
  /** Throws where the chain takes no entry; what only the index cannot take becomes a note. */
  readonly append: (draft: AppendDraft) => ChainEntry;
  readonly entries: (kind?: EntryKind) => readonly ChainEntry[];
  /** Newest first. */
  readonly find: (filter: RecordFilter) => readonly FoundRepair[];
  /** The same in pages, for any number of them. */
  readonly each: (filter: RecordFilter) => Generator<FoundRepair>;
  readonly show: (id: string) => ShownRecord | null;
  /** Takes personal data of these entries out of the database; compact must follow. */
  readonly forget: (seqs: readonly number[]) => void;
  /** Whether some record still keeps this among its personal data. */
  readonly keeps: (word: string) => boolean;
  /** Rids the database's files of what deleting left; false where another program still reads them. */
  readonly compact: () => boolean;
  /** The last entry's place and hash. */
  readonly head: () => { readonly seq: number; readonly hash: string };
  /** What a person should know about database and chain; empty where all is well. */
  readonly notes: () => readonly string[];
  /** `memory`: the database could not be used. */
  readonly source: () => Index['source'];
  readonly close: () => void;
}

const SALT_BYTES = 16;
const randomSalt = (): string => randomBytes(SALT_BYTES).toString('hex');

export function openRecords(folder: string, options: OpenOptions = {}): Checked<RecordsStore> {
  const { readOnly = false, newSalt = randomSalt } = options;
  const missing = readOnly ? !existsSync(folder) : !canMake(folder);
  if (missing) {
    const accepted = readOnly ? 'a folder of records' : 'a folder that can be made';
    return { ok: false, problems: [{ file: folder, path: '', value: 'missing', accepted }] };
  }
  closeRecords(folder);
  const opened = openIndex(folder, readOnly);
  return opened.ok ? { ok: true, value: storeOn(folder, opened.value, newSalt) } : opened;
}

function storeOn(folder: string, opened: Index, newSalt: () => string): RecordsStore {
  let index = opened;
  const notes = [...opened.notes];
  const toMemory = (error: Error): void => {
    index.database.close();
    index = indexInMemory(folder, `meniscus.db is damaged (${error.message})`);
    notes.push(...index.notes);
  };
  /** A page that proves damaged in the middle of reading sends the reader to the chain. */
  const read = <T>(action: (database: Index['database']) => T): T => {
    try {
      return action(index.database);
    } catch (error) {
      if (!isDatabaseError(error) || index.source === 'memory') throw error;
      toMemory(error);
      return action(index.database);
    }
  };
  const find: RecordsStore['find'] = (filter) => read((database) => findRepairs(database, filter));
  return {
    append: (draft) => {
      const known = read(headOf);
      const entry = appendEntry(folder, draft, { newSalt, known });
      const how = index.source === 'memory' ? 'lenient' : 'strict';
      const stopped = read((database) => catchUp(folder, database, how));
      if (stopped !== null) notes.push(`${stopped}; run: meniscus records verify`);
      return entry;
    },
    entries: (kind) => read((database) => entriesOf(database, kind)),
    find,
    each: (filter) => eachRepair(find, filter),
    show: (id) => read((database) => shown(folder, database, id)),
    forget: (seqs) => deletePersonal(index.database, seqs),
    keeps: (word) =>
      read((database) => database.prepare('SELECT 1 FROM personal WHERE value = ?').get(word)) !==
      undefined,
    compact: () => compact(index.database),
    head: () => {
      const { seq, hash } = read(headOf);
      return seq === 0 ? CHAIN_START : { seq, hash };
    },
    notes: () => [...new Set(notes)],
    source: () => index.source,
    close: () => index.database.close(),
  };
}

/**
 * The log holds old pages until it is emptied into the file. The planner's statistics would hold
 * samples of names too: this store never has them gathered.
 */
function compact(database: Index['database']): boolean {
  if (database.memory) return true;
  database.exec('VACUUM');
  return database.pragma('wal_checkpoint(TRUNCATE)', { simple: true }) === 0;
}

function entriesOf(
  database: Index['database'],
  kind: EntryKind | undefined,
): readonly ChainEntry[] {
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

function shown(folder: string, database: Index['database'], id: string): ShownRecord | null {
  const lines = database
    .prepare('SELECT line FROM entries WHERE id = ? ORDER BY seq')
    .pluck()
    .all(id);
  const entries = lines.flatMap(entryOfLine);
  if (entries.length === 0) return null;
  return {
    id,
    repair: findRepairs(database, { id, limit: 1 })[0] ?? null,
    entries: entries.map((entry) => ({ entry, personal: personalFieldsOf(folder, entry) })),
  };
}

function canMake(folder: string): boolean {
  try {
    makePrivateFolder(folder);
    return true;
  } catch {
    return false;
  }
}
