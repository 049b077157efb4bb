/**
 * Restricts access to records that an older program left open to every account of the machine. The
 * next program that opens the folder closes all of it once. The chain is closed last, so that an
 * interrupted sweep is repeated. The folder itself is closed only where it holds no foreign folder,
 * because a person may have named a shared one.
 */
import { existsSync, lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { closeToOthers, isOpenToOthers } from '../journal/private-file.ts';
import {
  CHAIN_FILE,
  chainPath,
  isAttemptFolder,
  isStoreName,
  JOURNAL_FILE,
  jobPersonalPath,
} from './chain/paths.ts';

export function closeRecords(folder: string): void {
  const marks = existsSync(chainPath(folder)) ? chainPath(folder) : folder;
  if (!isOpenToOthers(marks)) return;
  const names = readdirSync(folder).filter((name) => name !== CHAIN_FILE);
  const strange = names.filter((name) => !isOfRecords(folder, name));
  const alone = !isShared(folder) && !strange.some((name) => isFolder(join(folder, name)));
  for (const name of names) {
    if (alone || !strange.includes(name)) closeWithFiles(join(folder, name));
  }
  if (alone) closeToOthers(folder);
  closeToOthers(chainPath(folder));
}

/** Closes a folder (a job's or the store's own) and the files in it. */
export function closeWithFiles(path: string): void {
  closeToOthers(path);
  if (!isFolder(path)) return;
  for (const name of readdirSync(path)) {
    if (!isFolder(join(path, name))) closeToOthers(join(path, name));
    else if (isAttemptFolder(name)) closeWithFiles(join(path, name));
  }
}

const isFolder = (path: string): boolean =>
  lstatSync(path, { throwIfNoEntry: false })?.isDirectory() === true;

/**
 * The sticky bit marks folders in which every account may write, such as one for temporary files.
 */
const isShared = (folder: string): boolean => (lstatSync(folder).mode & 0o1000) !== 0;

const BRING_UP = /^bring-up-.*\.json$/;

function isOfRecords(folder: string, name: string): boolean {
  if (isStoreName(name) || BRING_UP.test(name)) return true;
  const path = join(folder, name);
  return (
    isFolder(path) && (existsSync(join(path, JOURNAL_FILE)) || existsSync(jobPersonalPath(path)))
  );
}
