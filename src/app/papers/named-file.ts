/**
 * Every file that a command writes where a person says goes through here. It is refused where it
 * would lie among records or stand in place of a file that is there, unless the person insists; and
 * in place of a chain, a journal, a database or personal data always. It is written beside its place
 * first, so that a failure leaves nothing half written and what was there as it was.
 */
import { randomBytes } from 'node:crypto';
import { existsSync, lstatSync, realpathSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import type { SettingsProblem } from '../../core/settings.ts';
import { closeToOthers, writePrivate } from '../../journal/private-file.ts';
import { protectedAs, recordsAround } from '../../store/protected.ts';

export interface NamedPlace {
  /** The option that named it. */
  readonly option: string;
  /** Folder of the records that the command works on; others are known by what lies in them. */
  readonly records: string | null;
  /** The person insists. */
  readonly force: boolean;
  /** What would be accepted instead. */
  readonly accepted: string;
}

/** Why this file must not be written; null where nothing speaks against it. */
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

/** Also where a person insists, and where nobody named the file. */
function neverProblem(path: string): string | null {
  const real = existsSync(path) ? realpathSync.native(path) : path;
  const found = statSync(real, { throwIfNoEntry: false });
  if (found !== undefined && !found.isFile()) return 'not a file';
  const as = protectedAs(path) ?? protectedAs(real);
  return as === null ? null : `${as}, which is never written over`;
}

/** A link that leads nowhere is there too. */
const isThere = (path: string): boolean => lstatSync(path, { throwIfNoEntry: false }) !== undefined;

/** The nearest folder above that is there, links and dots resolved. */
function realFolder(path: string): string {
  if (existsSync(path)) return dirname(realpathSync.native(path));
  let folder = dirname(resolve(path));
  while (!existsSync(folder)) folder = dirname(folder);
  return realpathSync.native(folder);
}

/** Throws where it cannot be written, and then nothing of it is left. */
export function writeNamed(path: string, content: string | Uint8Array): void {
  writeNamedBy(path, (fresh) => writePrivate(fresh, content, 'w'));
}

/** The same for a writer that wants a path of its own. */
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
