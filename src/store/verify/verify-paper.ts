/**
 * Holds one page, or the code on it, against the chain: whether an entry has the hash that it
 * names, whether the links and signatures of the chain hold up to its end, and whether the file is
 * as it was written. A page that was given out anchors the chain: the entry that it names, and
 * every entry before, cannot have changed unseen.
 */

import { join } from 'node:path';
import { textAt } from '../../core/fields.ts';
import type { ChainEntry } from '../chain/chain-entry.ts';
import type { Finding } from '../chain/finding.ts';
import { hashesIn, saltedSha256, saltOf } from '../chain/papers-body.ts';
import { fingerprintOf } from '../chain/signature.ts';
import { chainLinks } from './verify-chain.ts';

export interface NamedEntry {
  /** Hash of an entry, or of a repair's journal. */
  readonly of: 'record' | 'journal';
  readonly sha256: string;
  /** Null where only a hash was noted. */
  readonly id: string | null;
  /** Fingerprint without separators. */
  readonly unitKey: string | null;
  /** The page itself; null where only its code is known. */
  readonly page: Uint8Array | null;
}

export interface PaperChecked {
  readonly ok: boolean;
  readonly findings: readonly Finding[];
  /** What is known then, for a person. */
  readonly lines: readonly string[];
}

export function checkPaper(folder: string, named: NamedEntry): PaperChecked {
  const findings: Finding[] = [];
  const about: ChainEntry[] = [];
  let entry: ChainEntry | null = null;
  let after = 0;
  for (const link of chainLinks(folder)) {
    if (link.finding !== null) findings.push(link.finding);
    if (link.entry === null) continue;
    if (entry !== null) after += 1;
    if (entry === null && isNamed(link.entry, named)) entry = link.entry;
    if (link.entry.id === named.id) about.push(link.entry);
  }
  if (entry === null) return { ok: false, findings: [...findings, noEntry(named)], lines: [] };
  const { seq, id, at } = entry;
  const page = named.page === null ? NOTHING_ELSE : pageAgainst(folder, about, named.page);
  const all = [...findings, ...entryFindings(entry, named), ...page.findings];
  const follow = after === 1 ? '1 entry follows' : `${after} entries follow`;
  return {
    ok: all.length === 0,
    findings: all,
    lines: [`entry ${seq} (${id}, ${at}) has this hash; ${follow}`, ...page.lines],
  };
}

const isNamed = ({ kind, hash, body }: ChainEntry, { of, sha256 }: NamedEntry): boolean =>
  of === 'record'
    ? hash.startsWith(sha256)
    : kind === 'repair' && textAt(body, 'journal', 'sha256') === sha256;

const noEntry = ({ of, sha256, id }: NamedEntry): Finding => ({
  where: 'chain',
  seq: null,
  id,
  what: of === 'record' ? 'an entry with this hash' : 'an entry of a journal with this hash',
  expected: sha256,
  found: 'none: the chain was cut or rewritten, or the page belongs to other records',
});

function entryFindings({ seq, id, signed }: ChainEntry, named: NamedEntry): readonly Finding[] {
  const key = signed === undefined ? null : fingerprintOf(signed.by).replaceAll('-', '');
  const held: readonly (readonly [string, string | null, string | null])[] = [
    ['name of the record', named.id, id],
    ['unit key', named.unitKey, key],
  ];
  return held
    .filter(([, expected, found]) => expected !== null && expected !== found)
    .map(([what, expected, found]) => ({
      where: 'papers',
      seq,
      id,
      what,
      expected: expected ?? '',
      found: found ?? 'none',
    }));
}

interface PageChecked {
  readonly findings: readonly Finding[];
  readonly lines: readonly string[];
}

const NOTHING_ELSE: PageChecked = { findings: [], lines: [] };

/** Every entry about the record's pages may vouch for it: a page may have been written again. */
function pageAgainst(folder: string, about: readonly ChainEntry[], page: Uint8Array): PageChecked {
  const papers = about.filter(({ kind }) => kind === 'papers');
  const id = about[0]?.id ?? '';
  const salt = saltOf(join(folder, id));
  const sha256 = salt === null ? null : saltedSha256(salt, page);
  const by = papers.findLast(({ body }) => statesOf(body).includes(sha256 ?? ''));
  if (by !== undefined) {
    const last = papers.at(-1);
    const later = last === by ? '' : `; the pages were written again at entry ${last?.seq}`;
    return {
      findings: [],
      lines: [`the file is as it was written: entry ${by.seq} vouches for it${later}`],
    };
  }
  const why = whyUnknown(about, papers, salt);
  if (why !== null) return { findings: [], lines: [`the file itself was NOT checked: ${why}`] };
  return {
    findings: [
      {
        where: 'papers',
        seq: papers.at(-1)?.seq ?? null,
        id,
        what: 'salted SHA-256 of the file',
        expected: 'one that an entry states',
        found: `${sha256}, which none states: it was changed after it was written`,
      },
    ],
    lines: [],
  };
}

const statesOf = (body: ChainEntry['body']): readonly string[] => [
  ...Object.values(hashesIn(body, 'files')),
  ...Object.values(hashesIn(body, 'elsewhere')),
];

function whyUnknown(
  about: readonly ChainEntry[],
  papers: readonly ChainEntry[],
  salt: string | null,
): string | null {
  if (papers.length === 0) return 'no entry vouches for the pages of this record';
  if (about.some(({ kind }) => kind === 'removal')) {
    return 'personal data of this record were removed, and the means to check earlier pages with them';
  }
  return salt === null ? 'the personal data of this record cannot be read' : null;
}
