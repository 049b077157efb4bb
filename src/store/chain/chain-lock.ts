/**
 * Allows one writer at a time in a folder of records, across programs. It uses only the file
 * system, because the chain must not depend on a module that may fail to load.
 *
 * The lock is a folder that holds one file, whose name identifies the holder. The folder is moved
 * into place complete, which fails while another holder's file is there. A dead holder is
 * recognised by its process, and only its own file is deleted, by name, so that no lock of a living
 * process can be taken. Where the holder cannot be checked (it runs on another machine), nothing is
 * deleted and the wait ends with the path of the lock.
 */
import { createHash, randomBytes } from 'node:crypto';
import {
  closeSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  renameSync,
  rmdirSync,
  rmSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { kill, pid } from 'node:process';
import { makeNewPrivateFolder, openPrivate } from '../../journal/private-file.ts';
import { lockPath } from './paths.ts';

const WAIT_MS = 10_000;
const PAUSE_MS = 5;

/** Throws where another writer holds the folder for longer than `waitMs`, ten seconds by default. */
export function withChainLock<T>(folder: string, action: () => T, waitMs = WAIT_MS): T {
  const lock = lockPath(folder);
  const holder = ownName();
  take(lock, holder, waitMs);
  try {
    return action();
  } finally {
    rmSync(join(lock, holder), { force: true });
    removeEmpty(lock);
  }
}

function take(lock: string, holder: string, waitMs: number): void {
  const claim = `${lock}.${holder}`;
  makeNewPrivateFolder(claim);
  try {
    closeSync(openPrivate(join(claim, holder), 'wx'));
    // The clock is not read: a pause lasts at least as long as it states.
    for (let waitedMs = 0; !moved(claim, lock); waitedMs += PAUSE_MS) {
      if (waitedMs >= waitMs) throw new Error(heldWords(lock, waitMs));
      clearDead(lock);
      pause();
    }
  } catch (error) {
    rmSync(claim, { recursive: true, force: true });
    throw error;
  }
}

/** Another holder's folder is never empty, and nothing can be moved over a non-empty folder. */
const HELD: ReadonlySet<unknown> = new Set(['ENOTEMPTY', 'EEXIST', 'EPERM', 'EACCES', 'EBUSY']);

function moved(claim: string, lock: string): boolean {
  try {
    renameSync(claim, lock);
    return true;
  } catch (error) {
    if (!HELD.has(codeOf(error))) throw error;
    return false;
  }
}

function clearDead(lock: string): void {
  for (const name of holdersOf(lock)) {
    if (isDead(name)) rmSync(join(lock, name), { force: true });
  }
  removeEmpty(lock);
}

function holdersOf(lock: string): readonly string[] {
  try {
    return readdirSync(lock);
  } catch {
    return [];
  }
}

function removeEmpty(lock: string): void {
  try {
    rmdirSync(lock);
  } catch {
    // Another process holds it again, or it is gone: both are fine.
  }
}

const heldWords = (lock: string, waitMs: number): string =>
  `${lock} has been held by another program (process ${holdersOf(lock).map(processOf).join(', ')}) for more than ${waitMs / 1000} s; if that program no longer runs, delete this folder`;

const processOf = (name: string): string => name.split('-')[3] ?? 'not known';

const sleeper = new Int32Array(new SharedArrayBuffer(4));
const pause = (): void => void Atomics.wait(sleeper, 0, 0, PAUSE_MS);

/** Host, start of the machine, PID namespace, process, its start, and a number for each lock. */
const ownName = (): string =>
  [...surroundings(), pid, startOf(pid), randomBytes(6).toString('hex')].join('-');

/** Parts that this system does not provide are empty. */
function surroundings(): readonly string[] {
  const boot = attempt(() => readFileSync('/proc/sys/kernel/random/boot_id', 'utf8'));
  const room = attempt(() => readlinkSync('/proc/self/ns/pid'));
  return [hostname(), boot, room].map((words) => (words === '' ? '' : short(words)));
}

const short = (words: string): string =>
  createHash('sha256').update(words).digest('hex').slice(0, 8);

/** Process numbers are reused; a number together with its start time is unique. */
const startOf = (process: number): string =>
  attempt(() => {
    const stat = readFileSync(`/proc/${process}/stat`, 'utf8');
    // The program's name, in brackets, may contain blanks; the start is the 20th field after it.
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? '';
  });

/** False where it cannot be determined. */
function isDead(name: string): boolean {
  const [host, boot, room, process = '', start] = name.split('-');
  const [ownHost, ownBoot, ownRoom] = surroundings();
  if (host !== ownHost || !/^\d+$/.test(process)) return false;
  if (boot !== ownBoot) return true;
  if (room !== ownRoom) return false;
  return !isRunning(Number(process)) || startOf(Number(process)) !== start;
}

function isRunning(process: number): boolean {
  try {
    return kill(process, 0);
  } catch (error) {
    // The process exists but belongs to another user.
    return codeOf(error) === 'EPERM';
  }
}

const codeOf = (error: unknown): unknown =>
  error instanceof Error && 'code' in error ? error.code : undefined;

function attempt(action: () => string): string {
  try {
    return action().trim();
  } catch {
    return '';
  }
}
