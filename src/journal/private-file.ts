/**
 * Records hold names, places and photographs, and are for the account that runs the unit alone. This
 * is the one place where modes are set: 0600 for a file and 0700 for a folder, whatever the umask,
 * and the same for what an older program left open. On Windows modes are not enforced (Node maps them
 * to the read-only flag alone): there the folder's own access list decides.
 */
import {
  chmodSync,
  closeSync,
  fchmodSync,
  fsyncSync,
  lstatSync,
  mkdirSync,
  openSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { dirname, resolve } from 'node:path';

const FILE_MODE = 0o600;
const FOLDER_MODE = 0o700;
const OTHERS = 0o077;

/** Opens a file, or makes it; throws like `openSync`. */
export function openPrivate(path: string, flags: 'wx' | 'w' | 'w+' | 'r+'): number {
  const file = openSync(path, flags, FILE_MODE);
  unlessNotOurs(() => fchmodSync(file, FILE_MODE));
  return file;
}

/** Written whole and on disk when it returns; throws otherwise. */
export function writePrivate(path: string, content: string | Uint8Array, flags: 'wx' | 'w'): void {
  const file = openPrivate(path, flags);
  try {
    const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
    fsyncSync(file);
  } catch (error) {
    // Half a file must not pass for one that was there before.
    if (flags === 'wx') rmSync(path, { force: true });
    throw error;
  } finally {
    closeSync(file);
  }
}

/** Makes a folder and those above it that are missing; one that is there is left as it is. */
export function makePrivateFolder(path: string): void {
  const folder = resolve(path);
  if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() === true) return;
  if (dirname(folder) !== folder) makePrivateFolder(dirname(folder));
  try {
    makeNewPrivateFolder(folder);
  } catch (error) {
    // Another program may have made it in this moment.
    if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) throw error;
  }
}

/** Throws where something of that name is there already. */
export function makeNewPrivateFolder(folder: string): void {
  mkdirSync(folder, FOLDER_MODE);
  unlessNotOurs(() => chmodSync(folder, FOLDER_MODE));
}

/** False where there is nothing, and for a link, which has no mode of its own. */
export function isOpenToOthers(path: string): boolean {
  const found = lstatSync(path, { throwIfNoEntry: false });
  return found !== undefined && !found.isSymbolicLink() && (found.mode & OTHERS) !== 0;
}

/** Takes from others what they may do with a file or folder; a link is not followed. */
export function closeToOthers(path: string): void {
  if (!isOpenToOthers(path)) return;
  unlessNotOurs(() => chmodSync(path, lstatSync(path).mode & 0o700));
}

/** Of somebody else, or on a disk that keeps no modes or takes no changes: not ours to set. */
const NOT_OURS: ReadonlySet<unknown> = new Set(['EPERM', 'EROFS', 'ENOTSUP', 'EOPNOTSUPP']);

function unlessNotOurs(action: () => void): void {
  try {
    action();
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (!NOT_OURS.has(code)) throw error;
  }
}
