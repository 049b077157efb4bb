/**
 * Loads the SQLite module where possible: it is compiled for one version of Node and may be
 * missing. Only the index needs it; the chain does not. It is loaded once, on first use.
 */
import { createRequire as loaderFrom } from 'node:module';
import { versions } from 'node:process';
import type BetterSqlite from 'better-sqlite3';

export type Sqlite =
  | { readonly ok: true; readonly Database: typeof BetterSqlite }
  /** In words for a person. */
  | { readonly ok: false; readonly why: string; readonly remedy: string };

const load = loaderFrom(import.meta.url);
let loaded: Sqlite | null = null;

export function loadSqlite(): Sqlite {
  loaded ??= tried();
  return loaded;
}

/**
 * Version 12 built for Node 24 aborts the whole process when one of its objects is
 * garbage-collected, in the middle of a job (seen on 24.21; others report it from 24.19). Builds
 * for 20, 22 and 26 do not. Version 13 is built differently and needs Node 22.
 */
export const abortsOn = (nodeVersion: string): boolean => nodeVersion.startsWith('24.');

function tried(): Sqlite {
  if (abortsOn(versions.node)) {
    return {
      ok: false,
      why: 'may end the program on Node 24',
      remedy: `another version of Node with ${REBUILD}`,
    };
  }
  try {
    const Database = load('better-sqlite3') as typeof BetterSqlite;
    // The native half is loaded with the first database, not with the module.
    new Database(':memory:').close();
    return { ok: true, Database };
  } catch (error) {
    return { ok: false, ...reasonOf(error) };
  }
}

/** Throws where the module cannot be loaded, so check first. */
export function openSqlite(
  path: string,
  options: BetterSqlite.Options = {},
): BetterSqlite.Database {
  const sqlite = loadSqlite();
  if (!sqlite.ok) throw new Error(`the SQLite module ${sqlite.why}`);
  return new sqlite.Database(path, options);
}

const REBUILD = '`npm rebuild better-sqlite3`';
const REASONS: Readonly<Record<string, { readonly why: string; readonly remedy: string }>> = {
  ERR_DLOPEN_FAILED: { why: 'is compiled for another version of Node', remedy: REBUILD },
  MODULE_NOT_FOUND: { why: 'is not installed', remedy: '`npm ci`' },
};

function reasonOf(error: unknown) {
  const { code = '', message } = error as { readonly code?: string; readonly message: string };
  const why = `cannot be loaded (${message.split('\n')[0]})`;
  return REASONS[code] ?? { why, remedy: REBUILD };
}

/** One sentence for a person who works without the index; null where it is there. */
export function indexMissing(): string | null {
  const sqlite = loadSqlite();
  return sqlite.ok
    ? null
    : `the SQLite module ${sqlite.why}: there is no index, so records are read from chain.jsonl, which takes longer; nothing is lost, and ${sqlite.remedy} restores the index`;
}
