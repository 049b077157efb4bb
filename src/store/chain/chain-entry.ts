/**
 * One entry of the hash chain in its only spelling: canonical JSON, with a SHA-256 hash over the
 * same text without the hash. Every byte of a line counts, and a reader can check a line without
 * encoding it again. A signed entry also states who signed it: see signature.ts. Anyone who can use
 * the unit's key can recompute the whole chain, and only a hash kept elsewhere (on a certificate)
 * shows that. Files are left to chain-file.ts.
 */
import { createHash } from 'node:crypto';
import { canonicalJson, sha256Of } from '../../core/canonical-json.ts';
import { isSigned, type Signed, type Signer, signatureHolds } from './signature.ts';

export type JsonValue =
  | string
  | number
  | boolean
  | null
  | readonly JsonValue[]
  | { readonly [key: string]: JsonValue };

/**
 * `begin`: a job or care procedure whose journal has begun; `papers`: the pages that were written
 * of a record.
 */
export const ENTRY_KINDS = ['begin', 'repair', 'papers', 'care', 'amendment', 'removal'] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];

export interface ChainEntry {
  /** Counts from 1 without a gap. */
  readonly seq: number;
  /** ISO 8601; simulated runs state simulated times. */
  readonly at: string;
  readonly kind: EntryKind;
  /** The entry's subject: the name of a job's folder, or of a piece of care. */
  readonly id: string;
  /** Holds no personal data: nothing in the chain can ever be removed. */
  readonly body: JsonValue;
  /** Commitment to personal data, which are kept elsewhere and may be removed. */
  readonly personalSha256: string | null;
  readonly previous: string;
  readonly hash: string;
  /** Entries of older versions have none. */
  readonly signed?: Signed;
}

export interface ChainHead {
  readonly seq: number;
  readonly hash: string;
}

/** The predecessor of the first entry. */
export const CHAIN_START: ChainHead = { seq: 0, hash: '0'.repeat(64) };

/** The entry that follows `head`. */
export function nextEntry(
  head: ChainHead,
  { at, kind, id, body, personalSha256 }: Omit<ChainEntry, 'seq' | 'previous' | 'hash' | 'signed'>,
  signer: Signer | null = null,
): ChainEntry {
  const unsigned = { seq: head.seq + 1, at, kind, id, body, personalSha256, previous: head.hash };
  const signed = signer === null ? {} : { signed: signer.sign(canonicalJson(unsigned)) };
  const unhashed = { ...unsigned, ...signed };
  return { ...unhashed, hash: sha256Of(canonicalJson(unhashed)) };
}

/** Without the line feed. */
export const encodeEntry = (entry: ChainEntry): string => canonicalJson(entry);

const HASH_FIELD = ',"hash":"';
const HASH_FIELD_BYTES = HASH_FIELD.length + 64 + 1;

/**
 * The hash that a line must state, or null where it states none. Quotes inside strings are escaped
 * and only plain fields follow the hash, so the last such field is the entry's own.
 */
export function expectedHash(line: Buffer): string | null {
  const from = line.lastIndexOf(HASH_FIELD);
  if (from < 0) return null;
  return createHash('sha256')
    .update(line.subarray(0, from))
    .update(line.subarray(from + HASH_FIELD_BYTES))
    .digest('hex');
}

/** Whether an entry's signature is that of the key that it names; true where it has none. */
export function isSignedRight(line: Buffer, { signed }: ChainEntry): boolean {
  if (signed === undefined) return true;
  const from = line.lastIndexOf(HASH_FIELD);
  const rest = line.subarray(from + HASH_FIELD_BYTES);
  return from >= 0 && signatureHolds(Buffer.concat([line.subarray(0, from), rest]), signed);
}

const SHA_256 = /^[0-9a-f]{64}$/;
const TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/;
const KINDS: ReadonlySet<unknown> = new Set(ENTRY_KINDS);
const isSha256 = (value: unknown): boolean => typeof value === 'string' && SHA_256.test(value);

/**
 * Checked by hand, because a schema takes longer over an entry than hashing and parsing together.
 */
const FIELDS: Readonly<Record<Exclude<keyof ChainEntry, 'signed'>, (value: unknown) => boolean>> = {
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

/** Null where the line is no entry. The caller verifies hash and links. */
export function parseEntry(line: string): ChainEntry | null {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return null;
  }
  if (typeof value !== 'object' || value === null) return null;
  const fields = value as Readonly<Record<string, unknown>>;
  const { signed } = fields;
  const length = CHECKS.length + (signed === undefined ? 0 : 1);
  const whole =
    Object.keys(fields).length === length &&
    (signed === undefined || isSigned(signed)) &&
    CHECKS.every(([name, holds]) => holds(fields[name]));
  return whole ? (value as ChainEntry) : null;
}
