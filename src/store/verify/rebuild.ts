/**
 * Makes a new database from the chain, and restores a chain from the old database where that can be
 * proved: a damaged or lost chain is rewritten only when every link from the first to the last
 * entry holds. What cannot be proved is left untouched and reported. Nothing is deleted: old files
 * are kept under other names. The caller enters jobs that have no entry.
 */
import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { openPrivate } from '../../journal/private-file.ts';
import { CHAIN_START, type ChainHead, expectedHash, parseEntry } from '../chain/chain-entry.ts';
import { withChainLock } from '../chain/chain-lock.ts';
import { endFinding, type Finding } from '../chain/finding.ts';
import { chainPath, databasePath } from '../chain/paths.ts';
import { catchUp, headOf } from '../index/index-file.ts';
import { migrate } from '../index/schema.ts';
import { type Database, loadSqlite, openSqlite } from '../index/sqlite.ts';
import { isDatabaseError, whileOpen } from '../index/statements.ts';
import { chainLinks } from './verify-chain.ts';

export interface Rebuilt {
  readonly chain:
    | 'whole'
    /** The chain was damaged or lost, and was restored from the old database; every link holds. */
    | 'restored'
    | 'broken'
    | 'empty';
  /** Number of entries, from the first on, whose links all hold. */
  readonly proven: number;
  readonly entries: number;
  /** The first broken link, as it was found. */
  readonly broken: Finding | null;
  /** Number of entries that could be restored only from the old database. */
  readonly fromDatabase: number;
  /** Names under which old files were kept. */
  readonly aside: readonly string[];
  readonly last: ChainHead;
  /** False where no SQLite module can be loaded: the old database was neither read nor replaced. */
  readonly database: boolean;
}

/** `mark` becomes part of the names of old files. */
export function rebuildRecords(folder: string, mark: string): Rebuilt {
  return withChainLock(folder, () => {
    const found = chainState(folder);
    const broken = found.broken ?? cutOff(folder, found.last.seq);
    const lines = broken === null && found.entries > 0 ? null : provenLines(folder);
    const restored = lines !== null && lines.length > found.proven;
    const aside: string[] = [];
    if (restored) {
      aside.push(...setAside(chainPath(folder), mark));
      writeLines(chainPath(folder), lines);
    }
    const now = restored ? chainState(folder) : found;
    const made = loadSqlite().ok;
    if (made) aside.push(...newDatabase(folder, mark));
    const held = broken === null ? 'whole' : 'broken';
    return {
      chain: now.entries === 0 ? 'empty' : restored ? 'restored' : held,
      proven: now.proven,
      entries: now.entries,
      broken,
      fromDatabase: restored ? now.proven - found.proven : 0,
      aside,
      last: now.last,
      database: made,
    };
  });
}

/** A chain that ends before the last entry in the old database. */
function cutOff(folder: string, last: number): Finding | null {
  const known = readOld(folder, (database) => headOf(database)) ?? CHAIN_START;
  return known.seq > last ? endFinding(known, last) : null;
}

function chainState(folder: string) {
  let entries = 0;
  let proven = 0;
  let broken: Finding | null = null;
  let last = CHAIN_START;
  for (const { entry, finding } of chainLinks(folder)) {
    broken ??= finding;
    if (entry === null) continue;
    entries += 1;
    last = { seq: entry.seq, hash: entry.hash };
    if (broken === null) proven += 1;
  }
  return { entries, proven, broken, last };
}

/**
 * A complete chain assembled from the lines of the file and of the old database, in which every
 * link holds; null where none is as long as the longer of the two.
 */
function provenLines(folder: string): readonly string[] | null {
  const fromFile = new Map<number, string>();
  for (const { entry, bytes } of chainLinks(folder)) {
    if (entry !== null && expectedHash(bytes) === entry.hash) {
      fromFile.set(entry.seq, bytes.toString('utf8'));
    }
  }
  const fromDatabase = databaseLines(folder);
  const length = [...fromFile.keys(), ...fromDatabase.keys()].reduce((a, b) => Math.max(a, b), 0);
  const lines: string[] = [];
  let head = CHAIN_START;
  for (let seq = 1; seq <= length; seq++) {
    const line = [fromFile.get(seq), fromDatabase.get(seq)].find((candidate) =>
      follows(candidate, head),
    );
    const entry = line === undefined ? null : parseEntry(line);
    if (line === undefined || entry === null) return null;
    lines.push(line);
    head = { seq: entry.seq, hash: entry.hash };
  }
  return lines;
}

function follows(line: string | undefined, head: ChainHead): boolean {
  const entry = line === undefined ? null : parseEntry(line);
  if (line === undefined || entry === null) return false;
  const whole = expectedHash(Buffer.from(line, 'utf8')) === entry.hash;
  return whole && entry.seq === head.seq + 1 && entry.previous === head.hash;
}

/** What can still be read from an old database, up to the first unreadable page. */
function databaseLines(folder: string): ReadonlyMap<number, string> {
  const lines = new Map<number, string>();
  readOld(folder, (database) => {
    const rows = database.prepare('SELECT seq, line FROM entries ORDER BY seq').iterate();
    for (const row of rows) {
      const { seq, line } = row as { readonly seq: number; readonly line: string };
      lines.set(seq, line);
    }
  });
  return lines;
}

/** Null where the old database is missing or damaged, or cannot be read. */
function readOld<T>(folder: string, action: (database: Database) => T): T | null {
  if (!loadSqlite().ok || !existsSync(databasePath(folder))) return null;
  try {
    return whileOpen(openSqlite(databasePath(folder), true), action);
  } catch (error) {
    if (!isDatabaseError(error)) throw error;
    return null;
  }
}

function writeLines(path: string, lines: readonly string[]): void {
  const file = openPrivate(path, 'wx');
  try {
    for (const line of lines) writeSync(file, `${line}\n`);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Built beside the old one and moved into its place when complete. */
function newDatabase(folder: string, mark: string): readonly string[] {
  const path = databasePath(folder);
  const fresh = `${path}.new`;
  rmSync(fresh, { force: true });
  closeSync(openPrivate(fresh, 'wx'));
  whileOpen(openSqlite(fresh), (database) => {
    database.exec('PRAGMA synchronous = OFF');
    migrate(database);
    catchUp(folder, database, 'lenient');
  });
  const file = openSync(fresh, 'r+');
  fsyncSync(file);
  closeSync(file);
  const aside = ['', '-wal', '-shm'].flatMap((ending) => setAside(path, mark, ending));
  renameSync(fresh, path);
  return aside;
}

function setAside(path: string, mark: string, ending = ''): readonly string[] {
  if (!existsSync(path + ending)) return [];
  const name = `${path}.before-${mark}${ending}`;
  renameSync(path + ending, name);
  return [name];
}
