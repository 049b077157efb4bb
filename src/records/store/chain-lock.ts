/**
 * One writer at a time in a folder of records, also among programs: a lock that the operating system
 * takes back when its holder dies, so that nothing has to guess whether a lock is stale. SQLite's own
 * file lock on a file that never holds anything serves for that.
 */
import Database from 'better-sqlite3';
import { lockPath } from './paths.ts';

const WAIT_MS = 10_000;

/** Throws where another writer holds the folder for longer than ten seconds. */
export function withChainLock<T>(folder: string, action: () => T): T {
  const lock = new Database(lockPath(folder), { timeout: WAIT_MS });
  try {
    lock.exec('BEGIN EXCLUSIVE');
    return action();
  } finally {
    // Closing gives the lock back and writes nothing.
    lock.close();
  }
}
