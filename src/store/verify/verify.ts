/**
 * Checks whether everything is as it was written: chain, journals, personal data and database in
 * one walk along the chain, so that the first finding is the first broken link. It reads in blocks
 * and changes nothing. The result states what it cannot show: anyone who can write all files can
 * recompute a new chain, and a chain cut at its end looks complete without another witness, such as
 * the hash on a certificate.
 */
import { statSync } from 'node:fs';
import { CHAIN_START, type ChainHead, parseEntry } from '../chain/chain-entry.ts';
import { chainLines } from '../chain/chain-file.ts';
import type { Finding } from '../chain/finding.ts';
import { chainPath } from '../chain/paths.ts';
import { removedSeqs } from '../removal.ts';
import { unrecordedJobs } from './unrecorded.ts';
import { chainLinks } from './verify-chain.ts';
import { checkPersonal, journalFinding, journalPathOf, reportRemark } from './verify-files.ts';
import { createIndexCheck } from './verify-index.ts';

export interface Verification {
  readonly ok: boolean;
  /** The first broken link; null where there is none. */
  readonly first: Finding | null;
  /** All findings, a hundred at most. */
  readonly findings: readonly Finding[];
  readonly findingCount: number;
  readonly entries: number;
  readonly journals: number;
  readonly personal: { readonly kept: number; readonly removed: number };
  readonly removals: readonly { readonly id: string; readonly at: string }[];
  /** Worth knowing, but no damage. */
  readonly remarks: readonly string[];
  /** For comparison with a hash that was kept elsewhere. */
  readonly last: ChainHead;
}

/** Called after every entry with the progress of the walk along the chain. */
export type OnProgress = (doneBytes: number, allBytes: number) => void;

const MOST_KEPT = 100;

export function verifyRecords(folder: string, onProgress: OnProgress): Verification {
  const { removals, removedAt } = removalsOf(folder);
  const index = createIndexCheck(folder);
  const tally = createTally();
  const ids = new Set<string>();
  const counts = { entries: 0, journals: 0, kept: 0, removed: 0 };
  let last = CHAIN_START;
  let doneBytes = 0;
  const allBytes = sizeOf(chainPath(folder));
  for (const { entry, bytes, finding } of chainLinks(folder)) {
    tally.add(finding);
    doneBytes += bytes.length + 1;
    onProgress(doneBytes, allBytes);
    if (entry === null) continue;
    counts.entries += 1;
    last = { seq: entry.seq, hash: entry.hash };
    const personal = checkPersonal(folder, entry, removedAt.get(entry.seq) ?? null);
    if (personal.state === 'kept') counts.kept += 1;
    if (personal.state === 'removed') counts.removed += 1;
    const journal = journalPathOf(folder, entry);
    if (journal !== null) {
      counts.journals += 1;
      tally.add(journalFinding(journal, entry));
    }
    if (entry.kind === 'repair') {
      ids.add(entry.id);
      tally.remark(reportRemark(folder, entry));
    }
    tally.add(personal.finding);
    // A damaged line was reported already.
    const own = finding ?? personal.finding;
    if (own === null) tally.add(index.check(entry, bytes, personal.fields));
  }
  const end = index.finish(last.seq);
  tally.add(end.finding);
  for (const remark of [end.remark, ...unrecorded(folder, ids)]) tally.remark(remark);
  const { entries, journals, kept, removed } = counts;
  return { ...tally.summary(), entries, journals, personal: { kept, removed }, removals, last };
}

function createTally() {
  const findings: Finding[] = [];
  const remarks: string[] = [];
  let findingCount = 0;
  return {
    add: (finding: Finding | null): void => {
      if (finding === null) return;
      findingCount += 1;
      if (findings.length < MOST_KEPT) findings.push(finding);
    },
    remark: (words: string | null): void => {
      if (words !== null) remarks.push(words);
    },
    summary: () => ({
      ok: findingCount === 0,
      first: findings[0] ?? null,
      findings,
      findingCount,
      remarks,
    }),
  };
}

/** Later removals must be known before earlier entries are checked. */
function removalsOf(folder: string) {
  const removals: { readonly id: string; readonly at: string }[] = [];
  const removedAt = new Map<number, string>();
  for (const { bytes } of chainLines(folder)) {
    if (!bytes.includes('"kind":"removal"')) continue;
    const entry = parseEntry(bytes.toString('utf8'));
    if (entry?.kind !== 'removal') continue;
    const { id, at } = entry;
    removals.push({ id, at });
    for (const seq of removedSeqs(entry)) if (!removedAt.has(seq)) removedAt.set(seq, at);
  }
  return { removals, removedAt };
}

const unrecorded = (folder: string, ids: ReadonlySet<string>): readonly string[] =>
  unrecordedJobs(folder, ids).map(
    (name) =>
      `${name} has a journal but no entry: it is still running, or was cut off before its end`,
  );

const sizeOf = (path: string): number => statSync(path, { throwIfNoEntry: false })?.size ?? 0;
