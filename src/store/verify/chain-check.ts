/**
 * Is a journal the one that the chain vouches for? Its bytes against the hash in the entry of its job,
 * and the links of the chain from that entry on: a journal and its entry that were both changed break
 * the link after them. A break before the entry says nothing of it and is a remark. A whole chain that
 * was computed anew, or cut at its end, only a hash kept elsewhere can show.
 */

import { textAt } from '../../core/fields.ts';
import type { ChainEntry } from '../chain/chain-entry.ts';
import { fileSha256 } from '../chain/file-sha256.ts';
import { type Finding, findingLine } from '../chain/finding.ts';
import { JOURNAL_FILE } from '../chain/paths.ts';
import { chainLinks } from './verify-chain.ts';

export interface ChainCheck {
  readonly state: 'agrees' | 'differs' | 'not recorded';
  /** All of this job in order; empty where the chain does not know it. */
  readonly entries: readonly ChainEntry[];
  /** What is not as the chain says, or worth knowing; null where nothing is. */
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
  // Every entry of the job must hold: a second one must not outdo the first.
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
