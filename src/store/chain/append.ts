/**
 * Appends one entry to a folder's chain, with or without a database. Under the lock, personal data
 * are written first (an entry must never promise a file that does not exist), then the line. The
 * index catches up later.
 */
import { createHash } from 'node:crypto';
import {
  type ChainEntry,
  type ChainHead,
  type EntryKind,
  type JsonValue,
  nextEntry,
} from './chain-entry.ts';
import { chainLines, chainTail, writeEntry } from './chain-file.ts';
import { withChainLock } from './chain-lock.ts';
import { personalPath } from './paths.ts';
import { personalSha256Of, readPersonal, writePersonal } from './personal-file.ts';
import { rememberHead } from './remembered-head.ts';
import type { Unit } from './unit-key.ts';

export interface AppendDraft {
  /** ISO 8601. */
  readonly at: string;
  readonly kind: EntryKind;
  readonly id: string;
  /** Holds no personal data. */
  readonly body: JsonValue;
  readonly personal: Readonly<Record<string, string>> | null;
}

export interface AppendMeans {
  readonly newSalt: () => string;
  /** The last entry that the index knows, for a chain whose last line is damaged. */
  readonly known: () => ChainHead | null;
  /** Signs the entry and remembers it; an entry without one is not signed. */
  readonly unit: Unit | null;
}

export function appendEntry(folder: string, draft: AppendDraft, means: AppendMeans): ChainEntry {
  return withChainLock(folder, () => {
    const tail = chainTail(folder);
    const head = tail.head ?? headOfDamaged(folder, means.known());
    const { at, kind, id, body, personal } = draft;
    const place = { kind, id, seq: head.seq + 1 };
    const personalSha256 = personal === null ? null : keepPersonal(folder, place, personal, means);
    const fields = { at, kind, id, body, personalSha256 };
    const entry = nextEntry(head, fields, means.unit?.signer ?? null);
    writeEntry(folder, entry, tail);
    if (means.unit !== null) rememberHead(means.unit.folder, folder, head, entry);
    return entry;
  });
}

/** A repair's personal data were written before its journal began, and must be unchanged. */
function keepPersonal(
  folder: string,
  place: { readonly kind: EntryKind; readonly id: string; readonly seq: number },
  fields: Readonly<Record<string, string>>,
  { newSalt }: AppendMeans,
): string {
  const path = personalPath(folder, place);
  const found = readPersonal(path);
  if (found.state === 'missing') {
    const personal = { salt: newSalt(), fields };
    writePersonal(path, personal, 'new');
    return personalSha256Of(personal);
  }
  if (place.kind === 'repair') return found.sha256;
  // An earlier append was cut off before it reached the chain and left this file behind.
  const personal = { salt: newSalt(), fields };
  writePersonal(path, personal, 'instead');
  return personalSha256Of(personal);
}

/** The damaged line is quoted in the error, so that it is not repaired unseen. */
function headOfDamaged(folder: string, known: ChainHead | null): ChainHead {
  let lines = 0;
  let last = Buffer.alloc(0);
  for (const { bytes, whole } of chainLines(folder)) {
    if (!whole) continue;
    lines += 1;
    last = Buffer.from(bytes);
  }
  if (known !== null && known.seq === lines) return { seq: known.seq, hash: known.hash };
  return { seq: lines, hash: createHash('sha256').update(last).digest('hex') };
}
