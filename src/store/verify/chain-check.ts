/**
 * Checks whether a journal is the one that the chain vouches for: its bytes against the hash in its
 * job's entry, and the links of the chain from that entry on. A journal and its entry that were
 * both changed break the link after them. A break before the entry does not concern it and is only
 * a remark. A recomputed chain, or one cut at its end, is revealed only by a hash kept elsewhere.
 */

import { textAt } from '../../core/fields.ts';
import type { ChainEntry } from '../chain/chain-entry.ts';
import { fileSha256 } from '../chain/file-sha256.ts';
import { type Finding, findingLine } from '../chain/finding.ts';
import { JOURNAL_FILE } from '../chain/paths.ts';
import { chainLinks } from './verify-chain.ts';

export interface ChainCheck {
  readonly state: 'agrees' | 'differs' | 'not recorded';
  /** All entries of this job in order; empty where the chain does not know it. */
  readonly entries: readonly ChainEntry[];
  /** Differences and remarks; null where there are none. */
  readonly words: string | null;
}

/** `id` is the name of the job's folder. Throws where the journal cannot be read. */
export function checkAgainstChain(folder: string, id: string, journalPath: string): ChainCheck {
  const entries: ChainEntry[] = [];
  let before: Finding | null = null;
  let since: Finding | null = null;
  for (const { entry, finding, torn } of chainLinks(folder)) {
    if (entry?.id === id) entries.push(entry);
    if (finding === null || torn) continue;
    if (entries.some(isRepair)) since ??= finding;
    else before ??= finding;
  }
  const repairs = entries.filter(isRepair);
  const earlier = before === null ? null : findingLine(before);
  if (repairs.length === 0) return { state: 'not recorded', entries, words: earlier };
  const sha256 = fileSha256(journalPath);
  // Every entry of the job must match: a second one must not override the first.
  const other = repairs.find(({ body }) => textAt(body, 'journal', 'sha256') !== sha256);
  const finding = other === undefined ? since : journalFinding(other, sha256);
  return finding === null
    ? { state: 'agrees', entries, words: earlier }
    : { state: 'differs', entries, words: findingLine(finding) };
}

const isRepair = ({ kind }: ChainEntry): boolean => kind === 'repair';

const journalFinding = ({ seq, id, body }: ChainEntry, found: string): Finding => ({
  where: 'journal',
  seq,
  id,
  what: `SHA-256 of ${JOURNAL_FILE}`,
  expected: textAt(body, 'journal', 'sha256') ?? 'a hash in the entry',
  found,
});
