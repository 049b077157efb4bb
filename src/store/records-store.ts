/**
 * Facade of a folder of records: append to the chain, find, show. The chain is the record. The
 * database is an index over it and may fail without harm: an append that the index cannot take is
 * still in the chain, and reading continues from the chain. Verifying, rebuilding, removing and
 * exporting have files of their own.
 */
import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import type { Checked } from '../core/settings.ts';
import { makePrivateFolder } from '../journal/private-file.ts';
import { type AppendDraft, type AppendMeans, appendEntry } from './chain/append.ts';
import type { ChainEntry, EntryKind } from './chain/chain-entry.ts';
import { personalFieldsOf } from './chain/personal-file.ts';
import type { Unit } from './chain/unit-key.ts';
import { closeRecords } from './close-records.ts';
import { createChainIndex } from './index/chain-index.ts';
import { createDatabaseIndex } from './index/database-index.ts';
import { eachRepair, type FoundRepair, type RecordFilter } from './index/find.ts';
import { type OpenedIndex, openIndex, readInstead } from './index/index-file.ts';
import type { RecordsIndex } from './index/records-index.ts';
import { isDatabaseError } from './index/statements.ts';

export interface OpenOptions {
  /** Opens for reading only; the folder must exist. */
  readonly readOnly?: boolean;
  /** Salt for personal data; random unless a simulated run derives its own. */
  readonly newSalt?: () => string;
  /** Signs what is appended. */
  readonly unit?: Unit | null;
}

export interface ShownEntry {
  readonly entry: ChainEntry;
  /** Null where there are none, where they were removed, or where they do not match their hash. */
  readonly personal: Readonly<Record<string, string>> | null;
}

export interface ShownRecord {
  readonly id: string;
  /** Null where the record is no repair. */
  readonly repair: FoundRepair | null;
  /** All entries of this record in order: the repair itself, amendments, removals. */
  readonly entries: readonly ShownEntry[];
}

export interface RecordsStore {
  /** Throws where the chain cannot take the entry; a failure of the index alone becomes a note. */
  readonly append: (draft: AppendDraft) => ChainEntry;
  readonly entries: (kind?: EntryKind) => readonly ChainEntry[];
  /** Newest first. */
  readonly find: (filter: RecordFilter) => readonly FoundRepair[];
  /** The same repairs in pages, for any number of them. */
  readonly each: (filter: RecordFilter) => Generator<FoundRepair>;
  readonly show: (id: string) => ShownRecord | null;
  /** Deletes the personal data of these entries from the database; call compact afterwards. */
  readonly forget: (seqs: readonly number[]) => void;
  /** Whether another record still has this word among its personal data. */
  readonly keeps: (word: string) => boolean;
  /**
   * Clears deleted data from the database's files; false where another program still reads them.
   */
  readonly compact: () => boolean;
  /** Number and hash of the last entry. */
  readonly head: () => { readonly seq: number; readonly hash: string };
  /** Problems of database or chain; empty where all is well, also without a SQLite module. */
  readonly notes: () => readonly string[];
  /** `memory`: the database could not be used. */
  readonly source: () => RecordsIndex['source'];
  readonly close: () => void;
}

const SALT_BYTES = 16;
const randomSalt = (): string => randomBytes(SALT_BYTES).toString('hex');

export function openRecords(folder: string, options: OpenOptions = {}): Checked<RecordsStore> {
  const { readOnly = false, newSalt = randomSalt, unit = null } = options;
  const missing = readOnly ? !existsSync(folder) : !canMake(folder);
  if (missing) {
    const accepted = readOnly ? 'a folder of records' : 'a folder that can be made';
    return { ok: false, problems: [{ file: folder, path: '', value: 'missing', accepted }] };
  }
  closeRecords(folder);
  const opened = openIndex(folder, readOnly);
  return opened.ok ? { ok: true, value: storeOn(folder, opened.value, { newSalt, unit }) } : opened;
}

function storeOn(
  folder: string,
  { database, notes: openedNotes }: OpenedIndex,
  means: Pick<AppendMeans, 'newSalt' | 'unit'>,
): RecordsStore {
  let index = database === null ? createChainIndex(folder) : createDatabaseIndex(folder, database);
  const notes = [...openedNotes];
  /** Falls back to the chain where a page proves damaged while reading. */
  const read = <T>(action: (index: RecordsIndex) => T): T => {
    try {
      return action(index);
    } catch (error) {
      if (!isDatabaseError(error) || index.source === 'memory') throw error;
      index.close();
      index = createChainIndex(folder);
      notes.push(readInstead(`meniscus.db is damaged (${error.message})`));
      return action(index);
    }
  };
  const find: RecordsStore['find'] = (filter) => read((one) => one.find(filter));
  return {
    append: (draft) => {
      const known = () => read((one) => one.head());
      const entry = appendEntry(folder, draft, { ...means, known });
      const stopped = read((one) => one.catchUp());
      if (stopped !== null) notes.push(`${stopped}; run: meniscus records verify`);
      return entry;
    },
    entries: (kind) => read((one) => one.entries(kind)),
    find,
    each: (filter) => eachRepair(find, filter),
    show: (id) => read((one) => shown(folder, one, id)),
    forget: (seqs) => index.forget(seqs),
    keeps: (word) => read((one) => one.keeps(word)),
    compact: () => index.compact(),
    head: () => read((one) => one.head()),
    notes: () => [...new Set(notes)],
    source: () => index.source,
    close: () => index.close(),
  };
}

function shown(folder: string, index: RecordsIndex, id: string): ShownRecord | null {
  const entries = index.ofRecord(id);
  if (entries.length === 0) return null;
  return {
    id,
    repair: index.find({ id, limit: 1 })[0] ?? null,
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
