/**
 * Checks the files that an entry vouches for: a journal by its hash, and personal data by their
 * salted hash, or their absence where a later entry says that they were removed.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { textAt } from '../../core/fields.ts';
import type { ChainEntry } from '../chain/chain-entry.ts';
import { fileSha256, firstLineSha256 } from '../chain/file-sha256.ts';
import type { Finding } from '../chain/finding.ts';
import { JOURNAL_FILE, personalPath, REPORT_FILE } from '../chain/paths.ts';
import { type PersonalFound, readPersonal } from '../chain/personal-file.ts';

const GONE = 'no file';

/**
 * A repair's journal lies in its own folder; the entry of a calibration or health test names its
 * folder, if any.
 */
export function journalPathOf(folder: string, { kind, id, body }: ChainEntry): string | null {
  if (kind === 'repair') return join(folder, id, JOURNAL_FILE);
  const file = kind === 'care' ? textAt(body, 'journal', 'file') : null;
  return file === null ? null : join(folder, file);
}

export function journalFinding(path: string, entry: ChainEntry): Finding | null {
  const expected = textAt(entry.body, 'journal', 'sha256') ?? 'a hash in the entry';
  const found = hashOrGone(path);
  if (found === expected) return null;
  const { seq, id } = entry;
  return { where: 'journal', seq, id, what: `SHA-256 of ${JOURNAL_FILE}`, expected, found };
}

/** The first line of the journal of a job or procedure that was begun. */
export function beginFinding(folder: string, entry: ChainEntry): Finding | null {
  const file = entry.kind === 'begin' ? textAt(entry.body, 'journal', 'file') : null;
  if (file === null) return null;
  const expected = textAt(entry.body, 'journal', 'headerSha256') ?? 'a hash in the entry';
  const found = hashOrGone(join(folder, file), firstLineSha256);
  const { seq, id } = entry;
  return found === expected
    ? null
    : { where: 'journal', seq, id, what: `SHA-256 of the first line of ${file}`, expected, found };
}

/** Where no entry vouches for the pages, an older version may have rewritten them: a remark. */
export function reportRemark(folder: string, entry: ChainEntry): string | null {
  const expected = textAt(entry.body, 'report', 'sha256');
  const path = join(folder, entry.id, REPORT_FILE);
  if (expected === null || !existsSync(path) || hashOrGone(path) === expected) return null;
  return `${entry.id}: ${REPORT_FILE} is not the one written at the end of the job: it was rewritten or changed`;
}

export interface PersonalChecked {
  readonly state: 'none' | 'kept' | 'removed' | 'broken';
  readonly fields: Readonly<Record<string, string>> | null;
  readonly finding: Finding | null;
}

/** `removedAt` is when a later entry says that they were removed; null where none does. */
export function checkPersonal(
  folder: string,
  entry: ChainEntry,
  removedAt: string | null,
): PersonalChecked {
  const { seq, id, personalSha256 } = entry;
  if (personalSha256 === null) return { state: 'none', fields: null, finding: null };
  const found = readPersonal(personalPath(folder, entry));
  const what = 'SHA-256 of personal data';
  const broken = (expected: string, words: string): PersonalChecked => ({
    state: 'broken',
    fields: null,
    finding: { where: 'personal data', seq, id, what, expected, found: words },
  });
  if (removedAt !== null) {
    return found.state === 'missing'
      ? { state: 'removed', fields: null, finding: null }
      : broken(`none, removed on ${removedAt}`, 'a file that is there (again)');
  }
  const keeps = found.state === 'there' && found.sha256 === personalSha256;
  return keeps
    ? { state: 'kept', fields: found.personal.fields, finding: null }
    : broken(personalSha256, foundWords(found));
}

const foundWords = (found: PersonalFound): string =>
  found.state === 'missing' ? `${GONE}, and no entry that says it was removed` : found.sha256;

/** The hash of a file, or words that say why there is none. */
export function hashOrGone(path: string, hash: (path: string) => string = fileSha256): string {
  try {
    return hash(path);
  } catch (error) {
    const gone = error instanceof Error && 'code' in error && error.code === 'ENOENT';
    return gone ? GONE : `a file that cannot be read (${String(error)})`;
  }
}
