/**
 * Checks whether everything is as it was written: chain, signatures, journals, pages, personal data
 * and database in one walk along the chain, so that the first finding is the first broken link. It
 * reads in blocks and changes nothing. What no such check can know is said in PROOF.md: whoever can
 * use the unit's key can write another history, and a chain cut at its end looks complete without a
 * witness, such as the unit's memory, the database or the hash on a certificate.
 */
import { statSync } from 'node:fs';
import { CHAIN_START, type ChainHead } from '../chain/chain-entry.ts';
import type { Finding } from '../chain/finding.ts';
import { chainPath } from '../chain/paths.ts';
import { rememberedHeads } from '../chain/remembered-head.ts';
import { createKeysSeen, type KeySeen } from './keys-seen.ts';
import { laterEntriesIn } from './later-entries.ts';
import { createTally, type Found } from './tally.ts';
import { chainLinks, type Link } from './verify-chain.ts';
import { checkPersonal } from './verify-files.ts';
import { createHeadsCheck } from './verify-heads.ts';
import { createIndexCheck } from './verify-index.ts';
import { createRecordCheck, type Derive, type RecordCounts } from './verify-record.ts';

export interface Verification extends RecordCounts {
  readonly ok: boolean;
  /** The first broken link; null where there is none. */
  readonly first: Finding | null;
  /** All findings, a hundred at most. */
  readonly findings: readonly Finding[];
  readonly findingCount: number;
  readonly entries: number;
  readonly personal: { readonly kept: number; readonly removed: number };
  readonly removals: readonly { readonly id: string; readonly at: string }[];
  /** Which keys signed, and how many entries no key signed. */
  readonly keys: readonly KeySeen[];
  readonly unsigned: number;
  /** Worth knowing, but no damage. */
  readonly remarks: readonly string[];
  /** For comparison with a hash that was kept elsewhere. */
  readonly last: ChainHead;
}

export interface VerifyMeans {
  /** Where a unit keeps what it remembers; null where it is not asked. */
  readonly unitFolder: string | null;
  /** Derives a repair's entry from its journal again; null where journals are compared by hash alone. */
  readonly derive: Derive | null;
}

/** Called after every entry with the progress of the walk along the chain. */
export type OnProgress = (doneBytes: number, allBytes: number) => void;

export function verifyRecords(
  folder: string,
  onProgress: OnProgress,
  { unitFolder, derive }: VerifyMeans = { unitFolder: null, derive: null },
): Verification {
  const heads = createHeadsCheck(unitFolder === null ? [] : rememberedHeads(unitFolder, folder));
  const walk = createWalk(folder, derive);
  let doneBytes = 0;
  const allBytes = sizeOf(chainPath(folder));
  for (const link of chainLinks(folder)) {
    walk.take(link);
    if (link.entry !== null) heads.see(link.entry);
    doneBytes += link.bytes.length + 1;
    onProgress(doneBytes, allBytes);
  }
  return walk.finish(heads.finish());
}

interface Walk {
  readonly take: (link: Link) => void;
  readonly finish: (found: Found) => Verification;
}

function createWalk(folder: string, derive: Derive | null): Walk {
  const later = laterEntriesIn(folder);
  const index = createIndexCheck(folder);
  const tally = createTally();
  const records = createRecordCheck(folder, later, derive, tally);
  const keys = createKeysSeen();
  const personalCounts = { kept: 0, removed: 0 };
  let entries = 0;
  let last = CHAIN_START;
  return {
    take: ({ entry, bytes, finding }) => {
      tally.add(finding);
      if (entry === null) return;
      entries += 1;
      last = { seq: entry.seq, hash: entry.hash };
      keys.see(entry);
      const personal = checkPersonal(folder, entry, later.removedAt.get(entry.seq) ?? null);
      if (personal.state === 'kept') personalCounts.kept += 1;
      if (personal.state === 'removed') personalCounts.removed += 1;
      records.take(entry);
      tally.add(personal.finding);
      // A damaged line was reported already.
      const own = finding ?? personal.finding;
      if (own === null) tally.add(index.check(entry, bytes, personal.fields));
    },
    finish: (found) => {
      const end = index.finish(last.seq);
      tally.add(end.finding);
      tally.addAll(found);
      tally.remark(end.remark);
      records.finish();
      tally.remark(keys.remark());
      const counted = { entries, ...records.counts(), personal: personalCounts, ...keys.seen() };
      return { ...tally.summary(), ...counted, removals: later.removals, last };
    },
  };
}

const sizeOf = (path: string): number => statSync(path, { throwIfNoEntry: false })?.size ?? 0;
