/** The few things that are asked of a database in more than one place. */
import type { Database } from './sqlite.ts';

/** The errors of a database, whichever of the modules opened it. */
export const isDatabaseError = (error: unknown): error is Error & { readonly code: string } =>
  error instanceof Error &&
  'code' in error &&
  typeof error.code === 'string' &&
  /^(ERR_)?SQLITE_/.test(error.code);

/** The first column of a pragma's first row. */
export const pragmaOf = (database: Database, pragma: string): unknown =>
  Object.values(database.prepare(`PRAGMA ${pragma}`).get() ?? {})[0];

export function whileOpen<T>(database: Database, action: (database: Database) => T): T {
  try {
    return action(database);
  } finally {
    database.close();
  }
}

/** All of it or nothing. */
export function inTransaction<T>(database: Database, action: () => T): T {
  database.exec('BEGIN');
  try {
    const result = action();
    database.exec('COMMIT');
    return result;
  } catch (error) {
    undo(database);
    throw error;
  }
}

/** After some errors SQLite has undone it by itself, and says so by another error. */
function undo(database: Database): void {
  try {
    database.exec('ROLLBACK');
  } catch (error) {
    if (!isDatabaseError(error)) throw error;
  }
}
