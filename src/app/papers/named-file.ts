/**
 * Writes every file whose path a person chooses. A path among records, or of an existing file, is
 * refused unless the person insists. A path of a chain, journal, database or personal data is
 * always refused. The file is written under a temporary name first, so that a failure leaves
 * nothing half-written and the existing file intact.
 */
import { randomBytes } from 'node:crypto';
import { existsSync, lstatSync, realpathSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import type { SettingsProblem } from '../../core/settings.ts';
import { closeToOthers, writePrivate } from '../../journal/private-file.ts';
import { protectedAs, recordsAround } from '../../store/protected.ts';

export interface NamedPlace {
  /** The option that names the file. */
  readonly option: string;
  /** Folder of the records that the command works on; others are recognised by their contents. */
  readonly records: string | null;
  /** The person insists. */
  readonly force: boolean;
  /** What would be accepted instead. */
  readonly accepted: string;
}

/** Why this file must not be written; null where it may be. */
export function namedFileProblem(path: string, place: NamedPlace): SettingsProblem | null {
  const { option, accepted } = place;
  const problem = (value: string): SettingsProblem => ({ file: option, path, value, accepted });
  const taken = neverProblem(path);
  if (taken !== null) return problem(taken);
  if (place.force) return null;
  const around = recordsAround(realFolder(path), place.records);
  if (around !== null) return problem(`inside the folder of records ${around}`);
  return isThere(path) ? problem('there already') : null;
}

/** Holds even where a person insists, and where no one named the file. */
function neverProblem(path: string): string | null {
  const real = existsSync(path) ? realpathSync.native(path) : path;
  const found = statSync(real, { throwIfNoEntry: false });
  if (found !== undefined && !found.isFile()) return 'not a file';
  const as = protectedAs(path) ?? protectedAs(real);
  return as === null ? null : `${as}, which is never overwritten`;
}

/** A dangling link counts as existing too. */
const isThere = (path: string): boolean => lstatSync(path, { throwIfNoEntry: false }) !== undefined;

/** The nearest existing folder above, with links and dots resolved. */
function realFolder(path: string): string {
  if (existsSync(path)) return dirname(realpathSync.native(path));
  let folder = dirname(resolve(path));
  while (!existsSync(folder)) folder = dirname(folder);
  return realpathSync.native(folder);
}

/** Throws where it cannot be written; nothing is left behind then. */
export function writeNamed(path: string, content: string | Uint8Array): void {
  writeNamedBy(path, (fresh) => writePrivate(fresh, content, 'w'));
}

/** The same for a writer that needs a path of its own. */
export function writeNamedBy(path: string, write: (fresh: string) => void): void {
  const never = neverProblem(path);
  if (never !== null) throw new Error(`${path}: ${never}`);
  const fresh = join(dirname(path), `${basename(path)}.${randomBytes(6).toString('hex')}.part`);
  try {
    writePrivate(fresh, '', 'wx');
    write(fresh);
    closeToOthers(fresh);
    renameSync(fresh, path);
  } catch (error) {
    rmSync(fresh, { force: true });
    throw error;
  }
}
