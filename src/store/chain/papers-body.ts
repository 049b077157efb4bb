/**
 * What the chain keeps of the pages and photographs of a record: a hash of each. The hash is made
 * with the salt of the record's personal data, because a page prints names, and a name could be
 * guessed from a plain hash of the page after it was removed. Once personal data are removed with
 * their salt, the hashes of earlier pages tell nothing.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, realpathSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { answerAt } from '../../core/fields.ts';
import type { JsonValue } from './chain-entry.ts';
import { isPhotograph, jobPersonalPath } from './paths.ts';
import { readPersonal } from './personal-file.ts';

export const PAPERS_SCHEMA = 'meniscus/papers@1';

export type FileHashes = Readonly<Record<string, string>>;

export interface PapersBody {
  readonly [key: string]: JsonValue;
  readonly schema: typeof PAPERS_SCHEMA;
  readonly salted: boolean;
  /** All pages and photographs that lie with the record, by file name. */
  readonly files: FileHashes;
  /** Pages that were written to another folder, by file name. */
  readonly elsewhere: FileHashes;
}

/** Empty where the record has no personal data, and null where they cannot be read. */
export function saltOf(jobFolder: string): string | null {
  const found = readPersonal(jobPersonalPath(jobFolder));
  if (found.state === 'missing') return '';
  return found.state === 'there' ? found.personal.salt : null;
}

export const saltedSha256 = (salt: string, bytes: Uint8Array): string =>
  createHash('sha256').update(salt, 'utf8').update(bytes).digest('hex');

/** The hashes that an entry states; an entry of another kind has none. */
export const hashesIn = (body: JsonValue, field: 'files' | 'elsewhere'): FileHashes =>
  Object.fromEntries(
    Object.entries(answerAt(body, field) ?? {}).filter(([, hash]) => typeof hash === 'string'),
  );

/**
 * After pages were written to `paths`. Pages that were not written now keep the hash they had in
 * `before`, so that a page changed in between is still found. Null where the salt cannot be read.
 */
export function papersBodyOf(
  jobFolder: string,
  paths: readonly string[],
  before: FileHashes,
): PapersBody | null {
  const salt = saltOf(jobFolder);
  if (salt === null) return null;
  const real = (folder: string): string => realpathSync.native(folder);
  const isBeside = (path: string): boolean => real(dirname(path)) === real(jobFolder);
  const photographs = readdirSync(jobFolder).filter(isPhotograph);
  const hashesOf = (files: readonly string[]): FileHashes =>
    Object.fromEntries(
      files.map((path) => [basename(path), saltedSha256(salt, readFileSync(path))]),
    );
  const kept = Object.entries(before).filter(([name]) => !isPhotograph(name));
  return {
    schema: PAPERS_SCHEMA,
    salted: salt !== '',
    files: {
      ...Object.fromEntries(kept),
      ...hashesOf(photographs.map((name) => join(jobFolder, name))),
      ...hashesOf(paths.filter(isBeside)),
    },
    elsewhere: hashesOf(paths.filter((path) => !isBeside(path))),
  };
}
