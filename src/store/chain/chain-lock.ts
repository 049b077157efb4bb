/**
 * One writer at a time in a folder of records, also among programs, and with nothing but the file
 * system, because the chain must not hang on a module that may not load. The lock is a folder with one
 * file in it, whose name says who holds it. It is moved into place whole, which fails while another
 * holder's file lies there. A holder that died is known by its process; only its own file is ever
 * taken away, by name, so nobody can take a lock from a living one. Where the holder cannot be asked
 * (another machine), nothing is taken away and the wait ends with the path of the lock.
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

/** Throws where another writer holds the folder for longer than ten seconds. */
export function withChainLock<T>(folder: string, action: () => T): T {
  const lock = lockPath(folder);
  const holder = ownName();
  take(lock, holder);
  try {
    return action();
  } finally {
    rmSync(join(lock, holder), { force: true });
    removeEmpty(lock);
  }
}

function take(lock: string, holder: string): void {
  const claim = `${lock}.${holder}`;
  makeNewPrivateFolder(claim);
  try {
    closeSync(openPrivate(join(claim, holder), 'wx'));
    // No clock is read here: a pause is at least as long as it says.
    for (let waitedMs = 0; !moved(claim, lock); waitedMs += PAUSE_MS) {
      if (waitedMs >= WAIT_MS) throw new Error(heldWords(lock));
      clearDead(lock);
      pause();
    }
  } catch (error) {
    rmSync(claim, { recursive: true, force: true });
    throw error;
  }
}

/** Another holder's folder is never empty, and nothing can be moved over a folder that is not. */
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
    // Somebody holds it again, or it is gone: both are as they should be.
  }
}

const heldWords = (lock: string): string =>
  `${lock} is held by another program (process ${holdersOf(lock).map(processOf).join(', ')}) for longer than ${WAIT_MS / 1000} s; where that program runs no more, delete this folder`;

const processOf = (name: string): string => name.split('-')[3] ?? 'not known';

const sleeper = new Int32Array(new SharedArrayBuffer(4));
const pause = (): void => void Atomics.wait(sleeper, 0, 0, PAUSE_MS);

/** host, start of the machine, room of process numbers, process, its start, and one for each lock. */
const ownName = (): string =>
  [...surroundings(), pid, startOf(pid), randomBytes(6).toString('hex')].join('-');

/** Empty parts where this system does not tell. */
function surroundings(): readonly string[] {
  const boot = attempt(() => readFileSync('/proc/sys/kernel/random/boot_id', 'utf8'));
  const room = attempt(() => readlinkSync('/proc/self/ns/pid'));
  return [hostname(), boot, room].map((words) => (words === '' ? '' : short(words)));
}

const short = (words: string): string =>
  createHash('sha256').update(words).digest('hex').slice(0, 8);

/** Process numbers are given again; a number with its start is not. */
const startOf = (process: number): string =>
  attempt(() => {
    const stat = readFileSync(`/proc/${process}/stat`, 'utf8');
    // The name of the program, in brackets, may hold blanks; the start is the 20th field after it.
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? '';
  });

/** Only where that can be known. */
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
    // There, and somebody else's.
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
