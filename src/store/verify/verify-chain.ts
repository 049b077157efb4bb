/**
 * Walks the chain line by line and checks that each line is complete, matches its own hash,
 * follows the one before and is signed from the first signed one on. After a broken link the walk continues from the line as found, so that
 * one change gives one finding. Files and database are left to verify-files.ts and verify-index.ts.
 */
import {
  CHAIN_START,
  type ChainEntry,
  type ChainHead,
  expectedHash,
  isSignedRight,
  parseEntry,
} from '../chain/chain-entry.ts';
import { type ChainLine, chainLines } from '../chain/chain-file.ts';
import type { Finding } from '../chain/finding.ts';
import { fingerprintOf } from '../chain/signature.ts';

export interface Link {
  /** Null where the line is no entry. */
  readonly entry: ChainEntry | null;
  readonly bytes: Buffer;
  /** Why this link is broken; null where it holds. */
  readonly finding: Finding | null;
  /** A last line torn by a power cut: no entry, and no damage to the earlier ones. */
  readonly torn: boolean;
}

export function* chainLinks(folder: string): Generator<Link> {
  let head: ChainHead = CHAIN_START;
  let signedFrom: number | null = null;
  for (const line of chainLines(folder)) {
    const link = linkAfter(head, signedFrom, line);
    if (link.entry?.signed !== undefined) signedFrom ??= link.entry.seq;
    head =
      link.entry === null
        ? { seq: head.seq + 1, hash: '' }
        : { seq: link.entry.seq, hash: link.entry.hash };
    yield link;
  }
}

/**
 * `head.hash` is empty after a line that stated none; the next line's link cannot be checked then.
 */
function linkAfter(head: ChainHead, signedFrom: number | null, { bytes, whole }: ChainLine): Link {
  const seq = head.seq + 1;
  const broken = (
    entry: ChainEntry | null,
    what: string,
    expected: string,
    found: string,
  ): Link => ({
    entry,
    bytes,
    torn: !whole,
    finding: { where: 'chain', seq, id: entry?.id ?? null, what, expected, found },
  });
  if (!whole)
    return broken(null, 'the last line', 'a whole line', `${bytes.length} bytes without an end`);
  const entry = parseEntry(bytes.toString('utf8'));
  if (entry === null) return broken(null, 'the line', 'an entry', shortened(bytes));
  const hash = expectedHash(bytes);
  if (hash !== entry.hash) {
    return broken(entry, 'hash of the entry', entry.hash, hash ?? 'no hash');
  }
  if (entry.seq !== seq) return broken(entry, 'number of the entry', `${seq}`, `${entry.seq}`);
  if (head.hash !== '' && entry.previous !== head.hash) {
    return broken(entry, 'hash of the entry before', head.hash, entry.previous);
  }
  if (entry.signed === undefined && signedFrom !== null) {
    return broken(entry, 'signature', `one, as on every entry from ${signedFrom} on`, 'none');
  }
  if (!isSignedRight(bytes, entry)) {
    const key = fingerprintOf(entry.signed?.by ?? '');
    return broken(entry, 'signature', `one by the unit key ${key}`, 'one that does not hold');
  }
  return { entry, bytes, finding: null, torn: false };
}

const SHOWN = 60;

function shortened(bytes: Buffer): string {
  const text = bytes.toString('utf8', 0, SHOWN);
  return JSON.stringify(bytes.length > SHOWN ? `${text}...` : text);
}
