/**
 * The index as a database: opened, migrated, and caught up with the chain. Where the file is
 * missing or damaged, or no SQLite module can be loaded, there is no index and records are found in
 * the chain itself. This file never deletes or repairs the database; rebuild.ts does, and keeps the
 * old one.
 */
import { closeSync, existsSync } from 'node:fs';
import type { Checked, SettingsProblem } from '../../core/settings.ts';
import { closeToOthers, openPrivate } from '../../journal/private-file.ts';
import { CHAIN_START, type ChainHead, parseEntry } from '../chain/chain-entry.ts';
import { chainLines, chainTail } from '../chain/chain-file.ts';
import { databasePath } from '../chain/paths.ts';
import { personalFieldsOf } from '../chain/personal-file.ts';
import { migrate, SCHEMA_VERSION, versionOf } from './schema.ts';
import { type Database, loadSqlite, openSqlite } from './sqlite.ts';
import { inTransaction, isDatabaseError, whileOpen } from './statements.ts';
import { createRowWriter } from './store-rows.ts';

export interface OpenedIndex {
  /** Null when it cannot be used: records are then found in the chain itself. */
  readonly database: Database | null;
  /**
   * Problems, one sentence each; empty where all is well, and also where there is no SQLite module.
   */
  readonly notes: readonly string[];
}

export function openIndex(folder: string, readOnly: boolean): Checked<OpenedIndex> {
  const path = databasePath(folder);
  const there = existsSync(path);
  const none = (...notes: readonly string[]): Checked<OpenedIndex> => ({
    ok: true,
    value: { database: null, notes },
  });
  if (!loadSqlite().ok) return none();
  if (!there && readOnly) {
    const isNew = chainTail(folder).wholeBytes === 0;
    return isNew ? none() : none(readInstead('meniscus.db is missing'));
  }
  const tooNew = newerDatabase(folder);
  if (tooNew !== null) return { ok: false, problems: [tooNew] };
  try {
    if (readOnly) bringUpToDate(folder);
    return { ok: true, value: openSettled(folder, readOnly, there) };
  } catch (error) {
    if (!isDatabaseError(error) && !isFileError(error)) throw error;
    return none(readInstead(`meniscus.db cannot be used (${error.message})`));
  }
}

export const readInstead = (why: string): string =>
  `${why}: read from chain.jsonl instead; \`meniscus records rebuild\` makes a new one`;

/** For example, no room for a new file. */
const isFileError = (error: unknown): error is Error =>
  error instanceof Error && 'syscall' in error;

function openDatabase(path: string, readOnly: boolean): Database {
  // SQLite gives its two companion files the mode of the database file.
  if (!readOnly && !existsSync(path)) closeSync(openPrivate(path, 'wx'));
  for (const ending of ['', '-wal', '-shm']) closeToOthers(path + ending);
  const database = openSqlite(path, readOnly);
  try {
    if (!readOnly) {
      database.exec('PRAGMA journal_mode = WAL');
      database.exec('PRAGMA synchronous = FULL');
    }
    // Deleted data are overwritten: personal data must not remain in free pages.
    database.exec('PRAGMA secure_delete = ON');
    return database;
  } catch (error) {
    database.close();
    throw error;
  }
}

/** Brings an outdated database up to date before it is opened for reading only. */
function bringUpToDate(folder: string): void {
  const path = databasePath(folder);
  const isBehind = (database: Database): boolean =>
    versionOf(database) < SCHEMA_VERSION || headOf(database).seq < chainSeq(folder);
  if (!whileOpen(openDatabase(path, true), isBehind)) return;
  whileOpen(openDatabase(path, false), (database) => {
    migrate(database);
    catchUp(folder, database, 'strict');
  });
}

const chainSeq = (folder: string): number => chainTail(folder).head?.seq ?? 0;

function openSettled(folder: string, readOnly: boolean, there: boolean): OpenedIndex {
  const database = openDatabase(databasePath(folder), readOnly);
  try {
    if (!readOnly) migrate(database);
    return settled(folder, database, there, readOnly);
  } catch (error) {
    database.close();
    throw error;
  }
}

/** Catches up where allowed, and reports where index and chain disagree. */
function settled(
  folder: string,
  database: Database,
  there: boolean,
  readOnly: boolean,
): OpenedIndex {
  const stopped = readOnly ? null : catchUp(folder, database, 'strict');
  const { head } = chainTail(folder);
  const known = headOf(database);
  const notes: readonly (readonly [boolean, string])[] = [
    [!there && holdsRecords(database), 'meniscus.db was missing and was rebuilt from chain.jsonl'],
    [stopped !== null, `${stopped}${ASK_VERIFY}`],
    [head === null, `the last line of chain.jsonl is no entry${ASK_VERIFY}`],
    [
      head !== null && known.seq > head.seq,
      `chain.jsonl ends at entry ${head?.seq}, meniscus.db knows ${known.seq}${ASK_VERIFY}`,
    ],
    [
      head !== null && known.seq === head.seq && known.hash !== head.hash,
      `meniscus.db and chain.jsonl disagree about entry ${head?.seq}${ASK_VERIFY}`,
    ],
  ];
  const applying = notes.filter(([applies]) => applies).map(([, words]) => words);
  return { database, notes: applying };
}

/** The first job of a folder begins before there is a database. */
const holdsRecords = (database: Database): boolean =>
  database.prepare("SELECT 1 FROM entries WHERE kind <> 'begin' LIMIT 1").get() !== undefined;

const ASK_VERIFY = '; run: meniscus records verify';

export function headOf(database: Database): ChainHead & { readonly endsAt: number } {
  const last = database
    .prepare('SELECT seq, hash, ends_at AS endsAt FROM entries ORDER BY seq DESC LIMIT 1')
    .get() as { seq: number; hash: string; endsAt: number } | undefined;
  return last ?? { ...CHAIN_START, endsAt: 0 };
}

/**
 * Adds the entries that the index lacks. Strict mode stops at the first line that does not follow
 * and reports it; lenient mode takes every line that is an entry.
 */
export function catchUp(
  folder: string,
  database: Database,
  how: 'strict' | 'lenient',
): string | null {
  const writer = createRowWriter(database);
  let head = headOf(database);
  return inTransaction(database, (): string | null => {
    for (const { bytes, offset, whole } of chainLines(folder, head.endsAt)) {
      const entry = whole ? parseEntry(bytes.toString('utf8')) : null;
      const follows = entry !== null && entry.previous === head.hash && entry.seq === head.seq + 1;
      if (how === 'strict' && whole && !follows) {
        return `chain.jsonl does not continue from entry ${head.seq}`;
      }
      if (entry === null || entry.seq <= head.seq) continue;
      const endsAt = offset + bytes.length + 1;
      writer.insert(entry, endsAt, personalFieldsOf(folder, entry));
      head = { seq: entry.seq, hash: entry.hash, endsAt };
    }
    return null;
  });
}

const newer = (path: string, version: number): SettingsProblem => ({
  file: path,
  path: '',
  value: `of version ${version}`,
  accepted: `a database of version ${SCHEMA_VERSION} or older (a newer program made this one)`,
});

/** Why this program must not touch the database; null when it may. */
export function newerDatabase(folder: string): SettingsProblem | null {
  const path = databasePath(folder);
  if (!loadSqlite().ok || !existsSync(path)) return null;
  try {
    const version = whileOpen(openSqlite(path, true), versionOf);
    return version > SCHEMA_VERSION ? newer(path, version) : null;
  } catch (error) {
    if (!isDatabaseError(error)) throw error;
    return null;
  }
}
