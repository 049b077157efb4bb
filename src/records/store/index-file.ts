/**
 * The index as a database: opened, brought up to date, caught up with the chain; or made in memory
 * from the chain where the file is missing or damaged, so that records can be read all the same. The
 * file on disk is never deleted or mended here; that is left to rebuild.ts, which keeps the old one.
 */
import { closeSync, existsSync } from 'node:fs';
import Database from 'better-sqlite3';
import type { Checked, SettingsProblem } from '../../settings.ts';
import { closeToOthers, openPrivate } from '../private-file.ts';
import { CHAIN_START, type ChainEntry, type ChainHead, parseEntry } from './chain-entry.ts';
import { chainLines, chainTail } from './chain-file.ts';
import { databasePath, personalPath } from './paths.ts';
import { readPersonal } from './personal-file.ts';
import { migrate, SCHEMA_VERSION, versionOf } from './schema.ts';
import { createRowWriter } from './store-rows.ts';

export interface Index {
  readonly database: Database.Database;
  readonly source: 'database' | 'memory';
  /** What a person should know, a sentence each; empty where all is well. */
  readonly notes: readonly string[];
}

const BUSY_MS = 10_000;

export function openIndex(folder: string, readOnly: boolean): Checked<Index> {
  const path = databasePath(folder);
  const there = existsSync(path);
  const memory = (why: string | null): Checked<Index> => ({
    ok: true,
    value: indexInMemory(folder, why),
  });
  if (!there && readOnly) {
    const isNew = chainTail(folder).wholeBytes === 0;
    return memory(isNew ? null : 'meniscus.db is missing');
  }
  let database: Database.Database | null = null;
  try {
    database = openDatabase(path, readOnly);
    const version = versionOf(database);
    if (version > SCHEMA_VERSION) {
      database.close();
      return { ok: false, problems: [newer(path, version)] };
    }
    const current = readOnly ? readableNow(folder, database) : database;
    if (!readOnly) migrate(current);
    return { ok: true, value: settled(folder, current, there, readOnly) };
  } catch (error) {
    if (database?.open === true) database.close();
    if (!isDatabaseError(error)) throw error;
    return memory(`meniscus.db cannot be used (${error.message})`);
  }
}

function openDatabase(path: string, readOnly: boolean): Database.Database {
  // SQLite gives its two companions the mode of the file itself.
  if (!readOnly && !existsSync(path)) closeSync(openPrivate(path, 'wx'));
  for (const ending of ['', '-wal', '-shm']) closeToOthers(path + ending);
  const database = new Database(path, { readonly: readOnly, timeout: BUSY_MS });
  try {
    if (!readOnly) {
      database.pragma('journal_mode = WAL');
      database.pragma('synchronous = FULL');
    }
    // What is deleted is overwritten: personal data must not stay behind in free pages.
    database.pragma('secure_delete = ON');
    return database;
  } catch (error) {
    database.close();
    throw error;
  }
}

/** A database that is older or behind is brought up to date before it is only read. */
function readableNow(folder: string, database: Database.Database): Database.Database {
  const behind = versionOf(database) < SCHEMA_VERSION || headOf(database).seq < chainSeq(folder);
  if (!behind) return database;
  database.close();
  const writable = openDatabase(databasePath(folder), false);
  try {
    migrate(writable);
    catchUp(folder, writable, 'strict');
  } finally {
    writable.close();
  }
  return openDatabase(databasePath(folder), true);
}

const chainSeq = (folder: string): number => chainTail(folder).head?.seq ?? 0;

/** Catches up where it may, and says where index and chain do not agree. */
function settled(
  folder: string,
  database: Database.Database,
  there: boolean,
  readOnly: boolean,
): Index {
  const stopped = readOnly ? null : catchUp(folder, database, 'strict');
  const { head } = chainTail(folder);
  const known = headOf(database);
  const notes: readonly (readonly [boolean, string])[] = [
    [!there && known.seq > 0, 'meniscus.db was missing and was made anew from chain.jsonl'],
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
  return { database, source: 'database', notes: applying };
}

const ASK_VERIFY = '; run: meniscus records verify';

export function headOf(database: Database.Database): ChainHead & { readonly endsAt: number } {
  const last = database
    .prepare('SELECT seq, hash, ends_at AS endsAt FROM entries ORDER BY seq DESC LIMIT 1')
    .get() as { seq: number; hash: string; endsAt: number } | undefined;
  return last ?? { ...CHAIN_START, endsAt: 0 };
}

/**
 * Takes over what the chain has and the index lacks. Strict stops at the first line that does not
 * follow and says so; lenient takes every line that is an entry.
 */
export function catchUp(
  folder: string,
  database: Database.Database,
  how: 'strict' | 'lenient',
): string | null {
  const writer = createRowWriter(database);
  let head = headOf(database);
  const take = database.transaction((): string | null => {
    for (const { bytes, offset, whole } of chainLines(folder, head.endsAt)) {
      const entry = whole ? parseEntry(bytes.toString('utf8')) : null;
      const follows = entry !== null && entry.previous === head.hash && entry.seq === head.seq + 1;
      if (how === 'strict' && whole && !follows) {
        return `chain.jsonl does not follow after entry ${head.seq}`;
      }
      if (entry === null || entry.seq <= head.seq) continue;
      const endsAt = offset + bytes.length + 1;
      writer.insert(entry, endsAt, personalFieldsOf(folder, entry));
      head = { seq: entry.seq, hash: entry.hash, endsAt };
    }
    return null;
  });
  return take();
}

/** Only what keeps to the commitment; anything else is for verify to name. */
export function personalFieldsOf(
  folder: string,
  entry: ChainEntry,
): Readonly<Record<string, string>> | null {
  if (entry.personalSha256 === null) return null;
  const found = readPersonal(personalPath(folder, entry));
  return found.state === 'there' && found.sha256 === entry.personalSha256
    ? found.personal.fields
    : null;
}

/** Made anew from the chain, for this reader alone. */
export function indexInMemory(folder: string, why: string | null): Index {
  const database = new Database(':memory:');
  migrate(database);
  catchUp(folder, database, 'lenient');
  const notes =
    why === null
      ? []
      : [`${why}: read from chain.jsonl instead; \`meniscus records rebuild\` makes a new one`];
  return { database, source: 'memory', notes };
}

const newer = (path: string, version: number): SettingsProblem => ({
  file: path,
  path: '',
  value: `of version ${version}`,
  accepted: `a database of version ${SCHEMA_VERSION} or older (a newer program made this one)`,
});

export const isDatabaseError = (error: unknown): error is Error & { readonly code: string } =>
  error instanceof Error &&
  'code' in error &&
  typeof error.code === 'string' &&
  error.code.startsWith('SQLITE_');

/** Why this program must leave the database alone; null where it need not. */
export function newerDatabase(folder: string): SettingsProblem | null {
  const path = databasePath(folder);
  if (!existsSync(path)) return null;
  let database: Database.Database | null = null;
  try {
    database = new Database(path, { readonly: true });
    const version = versionOf(database);
    return version > SCHEMA_VERSION ? newer(path, version) : null;
  } catch (error) {
    if (!isDatabaseError(error)) throw error;
    return null;
  } finally {
    database?.close();
  }
}
