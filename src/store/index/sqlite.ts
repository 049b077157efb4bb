/**
 * SQLite for the index: the npm module where it can be loaded, otherwise Node's own where it prints
 * no warning. The module is compiled for one version of Node and may be missing. Only the index
 * needs it; the chain does not. It is loaded once, on first use.
 */
import { createRequire as loaderFrom } from 'node:module';
import { versions } from 'node:process';

/** The part common to both, with the same spelling; everything that the index needs. */
export interface Statement {
  readonly run: (...values: readonly unknown[]) => unknown;
  /** Undefined where there is no row. */
  readonly get: (...values: readonly unknown[]) => unknown;
  readonly all: (...values: readonly unknown[]) => unknown[];
  readonly iterate: (...values: readonly unknown[]) => Iterable<unknown>;
}

export interface Database {
  readonly prepare: (sql: string) => Statement;
  readonly exec: (sql: string) => unknown;
  /** Calling it a second time does nothing. */
  readonly close: () => unknown;
}

type Open = (path: string, readOnly: boolean) => Database;

export type Sqlite =
  | { readonly ok: true; readonly open: Open }
  /** In words for a person. */
  | { readonly ok: false; readonly why: string; readonly remedy: string };

/** How long one program waits for another that is writing. */
const BUSY_MS = 10_000;

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

/** Node's own SQLite exists from 22.5 on, and prints a warning until 24.15 and 25.7. */
export function isSilentOn(nodeVersion: string): boolean {
  const [major = 0, minor = 0] = nodeVersion.split('.').map(Number);
  return major > 25 || (major === 25 && minor >= 7) || (major === 24 && minor >= 15);
}

function tried(): Sqlite {
  const compiled = abortsOn(versions.node) ? ABORTS : opening(compiledModule);
  if (compiled.ok || !isSilentOn(versions.node)) return compiled;
  const builtIn = opening(builtInModule);
  return builtIn.ok ? builtIn : compiled;
}

function compiledModule(): Open {
  const Compiled = load('better-sqlite3');
  return (path, readOnly) => new Compiled(path, { readonly: readOnly, timeout: BUSY_MS });
}

function builtInModule(): Open {
  const { DatabaseSync } = load('node:sqlite');
  return (path, readOnly) => {
    const database = new DatabaseSync(path, { readOnly, timeout: BUSY_MS });
    return {
      prepare: (sql) => database.prepare(sql),
      exec: (sql) => database.exec(sql),
      close: () => {
        if (database.isOpen) database.close();
      },
    };
  };
}

function opening(openerOf: () => Open): Sqlite {
  try {
    const open = openerOf();
    // The native half is loaded with the first database, not with the module.
    open(':memory:', false).close();
    return { ok: true, open };
  } catch (error) {
    return { ok: false, ...reasonOf(error) };
  }
}

/** Throws where no SQLite can be loaded, so check first. */
export function openSqlite(path: string, readOnly = false): Database {
  const sqlite = loadSqlite();
  if (!sqlite.ok) throw new Error(`the SQLite module ${sqlite.why}`);
  return sqlite.open(path, readOnly);
}

const REBUILD = '`npm rebuild better-sqlite3`';
const ABORTS: Sqlite = {
  ok: false,
  why: 'may end the program on Node 24',
  remedy: 'Node 24.15 or later, which has its own,',
};
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
