/**
 * Records hold names, places and photographs, and are only for the account that runs the unit. This
 * is the one place that sets file modes: 0600 for a file and 0700 for a folder, whatever the umask,
 * and the same for anything an older program left open. Windows does not enforce modes (Node maps
 * them to the read-only flag only); there the folder's own access list decides.
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

/** Opens or creates a file; throws like `openSync`. */
export function openPrivate(path: string, flags: 'wx' | 'w' | 'w+' | 'r+'): number {
  const file = openSync(path, flags, FILE_MODE);
  unlessNotOurs(() => fchmodSync(file, FILE_MODE));
  return file;
}

/** The content is complete and on disk when this returns; otherwise it throws. */
export function writePrivate(path: string, content: string | Uint8Array, flags: 'wx' | 'w'): void {
  const file = openPrivate(path, flags);
  try {
    const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
    fsyncSync(file);
  } catch (error) {
    // A partial file must not pass for an existing one.
    if (flags === 'wx') rmSync(path, { force: true });
    throw error;
  } finally {
    closeSync(file);
  }
}

/** Makes a folder and its missing parents; an existing one is left as it is. */
export function makePrivateFolder(path: string): void {
  const folder = resolve(path);
  if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() === true) return;
  if (dirname(folder) !== folder) makePrivateFolder(dirname(folder));
  try {
    makeNewPrivateFolder(folder);
  } catch (error) {
    // Another program may have just made it.
    if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) throw error;
  }
}

/** Throws when something of that name exists. */
export function makeNewPrivateFolder(folder: string): void {
  mkdirSync(folder, FOLDER_MODE);
  unlessNotOurs(() => chmodSync(folder, FOLDER_MODE));
}

/** False when nothing exists, and for a link, which has no mode of its own. */
export function isOpenToOthers(path: string): boolean {
  const found = lstatSync(path, { throwIfNoEntry: false });
  return found !== undefined && !found.isSymbolicLink() && (found.mode & OTHERS) !== 0;
}

/** Removes others' access to a file or folder; a link is not followed. */
export function closeToOthers(path: string): void {
  if (!isOpenToOthers(path)) return;
  unlessNotOurs(() => chmodSync(path, lstatSync(path).mode & 0o700));
}

/**
 * Owned by another account, or on a disk without modes or without write access: not ours to set.
 */
const NOT_OURS: ReadonlySet<unknown> = new Set(['EPERM', 'EROFS', 'ENOTSUP', 'EOPNOTSUPP']);

function unlessNotOurs(action: () => void): void {
  try {
    action();
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (!NOT_OURS.has(code)) throw error;
  }
}
