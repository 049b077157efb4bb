/**
 * Checks the pages and photographs of a record against the last entry that vouches for them. Pages
 * of older versions, and pages that were written while the chain took no entry, are vouched for by
 * none: that is a remark, because nothing can be said about them.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { ChainEntry } from '../chain/chain-entry.ts';
import type { Finding } from '../chain/finding.ts';
import { hashesIn, saltedSha256, saltOf } from '../chain/papers-body.ts';
import { isPage, isPhotograph } from '../chain/paths.ts';
import { hashOrGone } from './verify-files.ts';

export interface PapersChecked {
  readonly findings: readonly Finding[];
  readonly remarks: readonly string[];
  readonly files: number;
}

/** `entry` is the last one about the pages of its record. */
export function checkPapers(folder: string, entry: ChainEntry): PapersChecked {
  const jobFolder = join(folder, entry.id);
  const { seq, id } = entry;
  const expected = hashesIn(entry.body, 'files');
  const salt = saltOf(jobFolder);
  // Personal data that cannot be read were reported already, and their salt with them.
  if (salt === null) return { findings: [], remarks: [], files: 0 };
  const finding = (what: string, hash: string, found: string): Finding => ({
    where: 'papers',
    seq,
    id,
    what,
    expected: hash,
    found,
  });
  const salted = (path: string): string => saltedSha256(salt, readFileSync(path));
  const changed = Object.entries(expected).flatMap(([name, hash]) => {
    const found = hashOrGone(join(jobFolder, name), salted);
    return found === hash ? [] : [finding(`salted SHA-256 of ${name}`, hash, found)];
  });
  const others = namesIn(jobFolder).filter((name) => !(name in expected));
  return {
    findings: [
      ...changed,
      ...others
        .filter(isPage)
        .map((name) => finding(name, 'no page of this name', 'one that no entry vouches for')),
    ],
    remarks: others
      .filter(isPhotograph)
      .map((name) => `${id}: ${name} was added later, and no entry vouches for it`),
    files: Object.keys(expected).length,
  };
}

/** Whether pages or photographs lie with a record without such an entry. */
export const hasUncovered = (folder: string, id: string): boolean =>
  namesIn(join(folder, id)).some((name) => isPage(name) || isPhotograph(name));

const namesIn = (folder: string): readonly string[] =>
  statSync(folder, { throwIfNoEntry: false })?.isDirectory() === true
    ? readdirSync(folder).toSorted()
    : [];
