/**
 * One entry of the hash chain and its one spelling: canonical JSON, whose hash is SHA-256 over the
 * same text without the hash. So every byte of a line counts, and a reader can check a line without
 * spelling it anew. The chain finds changes; it is no signature: whoever can write all of it can
 * compute it anew, and only a hash kept elsewhere (on a certificate) shows that. Files are left to
 * chain.ts.
 */
import { createHash } from 'node:crypto';
import { canonicalJson, sha256Of } from '../../core/canonical-json.ts';

export type JsonValue =
  | string
  | number
  | boolean
  | null
  | readonly JsonValue[]
  | { readonly [key: string]: JsonValue };

export const ENTRY_KINDS = ['repair', 'care', 'amendment', 'removal'] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];

export interface ChainEntry {
  /** From 1, without a gap. */
  readonly seq: number;
  /** ISO 8601; simulated runs state simulated times. */
  readonly at: string;
  readonly kind: EntryKind;
  /** What the entry is about: the name of a job's folder, or of a piece of care. */
  readonly id: string;
  /** No personal data: what stands here can never be removed. */
  readonly body: JsonValue;
  /** Commitment to personal data that are kept elsewhere and may be removed. */
  readonly personalSha256: string | null;
  readonly previous: string;
  readonly hash: string;
}

export interface ChainHead {
  readonly seq: number;
  readonly hash: string;
}

/** What the first entry names as its previous. */
export const CHAIN_START: ChainHead = { seq: 0, hash: '0'.repeat(64) };

/** The entry that follows `head`. */
export function nextEntry(
  head: ChainHead,
  { at, kind, id, body, personalSha256 }: Omit<ChainEntry, 'seq' | 'previous' | 'hash'>,
): ChainEntry {
  const unsigned = { seq: head.seq + 1, at, kind, id, body, personalSha256, previous: head.hash };
  return { ...unsigned, hash: sha256Of(canonicalJson(unsigned)) };
}

/** Without the line feed. */
export const encodeEntry = (entry: ChainEntry): string => canonicalJson(entry);

const HASH_FIELD = ',"hash":"';
const HASH_FIELD_BYTES = HASH_FIELD.length + 64 + 1;

/**
 * What the hash of a line must be, or null where the line states none. Quotes inside strings are
 * escaped and only plain fields follow the hash, so the last such field is the entry's own.
 */
export function expectedHash(line: Buffer): string | null {
  const from = line.lastIndexOf(HASH_FIELD);
  if (from < 0) return null;
  return createHash('sha256')
    .update(line.subarray(0, from))
    .update(line.subarray(from + HASH_FIELD_BYTES))
    .digest('hex');
}

const SHA_256 = /^[0-9a-f]{64}$/;
const TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/;
const KINDS: ReadonlySet<unknown> = new Set(ENTRY_KINDS);
const isSha256 = (value: unknown): boolean => typeof value === 'string' && SHA_256.test(value);

/** By hand, because a schema takes longer over an entry than its hash and its parsing together. */
const FIELDS: Readonly<Record<keyof ChainEntry, (value: unknown) => boolean>> = {
  seq: (value) => Number.isSafeInteger(value) && (value as number) >= 1,
  at: (value) => typeof value === 'string' && TIME.test(value),
  kind: (value) => KINDS.has(value),
  id: (value) => typeof value === 'string' && value !== '',
  body: (value) => value !== undefined,
  personalSha256: (value) => value === null || isSha256(value),
  previous: isSha256,
  hash: isSha256,
};
const CHECKS = Object.entries(FIELDS);

/** Null where the line is no entry; its hash and links are left to whoever verifies. */
export function parseEntry(line: string): ChainEntry | null {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return null;
  }
  if (typeof value !== 'object' || value === null) return null;
  const fields = value as Readonly<Record<string, unknown>>;
  const whole =
    Object.keys(fields).length === CHECKS.length &&
    CHECKS.every(([name, holds]) => holds(fields[name]));
  return whole ? (value as ChainEntry) : null;
}
