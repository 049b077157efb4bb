/**
 * An older program left records open to every account of the machine. Whoever opens the folder next
 * closes all of it once; the chain is closed last, so that a sweep that was cut off is made again.
 * The folder itself is closed only where no other folder lies in it: a person may have named a shared
 * one.
 */
import { existsSync, lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { closeToOthers, isOpenToOthers } from '../journal/private-file.ts';
import {
  CHAIN_FILE,
  chainPath,
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

/** A job's folder, or the store's own: it and the files in it. */
export function closeWithFiles(path: string): void {
  closeToOthers(path);
  if (!isFolder(path)) return;
  for (const name of readdirSync(path)) {
    if (!isFolder(join(path, name))) closeToOthers(join(path, name));
  }
}

const isFolder = (path: string): boolean =>
  lstatSync(path, { throwIfNoEntry: false })?.isDirectory() === true;

/** Marked so that every account may write there, as a place for temporary files is. */
const isShared = (folder: string): boolean => (lstatSync(folder).mode & 0o1000) !== 0;

const BRING_UP = /^bring-up-.*\.json$/;

function isOfRecords(folder: string, name: string): boolean {
  if (isStoreName(name) || BRING_UP.test(name)) return true;
  const path = join(folder, name);
  return (
    isFolder(path) && (existsSync(join(path, JOURNAL_FILE)) || existsSync(jobPersonalPath(path)))
  );
}
