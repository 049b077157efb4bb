/**
 * Signatures of entries: Ed25519 (RFC 8032) over the canonical text of the entry without hash and
 * signature. The entry's hash covers the signature, so that a later entry vouches for it too. Each
 * entry states the public key that signed it; whose key that is follows from a fingerprint noted
 * elsewhere, such as on a certificate. Where the private key is kept is left to unit-key.ts.
 */
import { createHash, createPublicKey, type KeyObject, sign, verify } from 'node:crypto';

export interface Signed {
  /** The public key: 32 bytes in base64url. */
  readonly by: string;
  /** 64 bytes in base64url. */
  readonly signature: string;
}

export interface Signer {
  readonly by: string;
  readonly sign: (text: string) => Signed;
}

export function signerOf(privateKey: KeyObject): Signer {
  const { x: by = '' } = createPublicKey(privateKey).export({ format: 'jwk' });
  return {
    by,
    sign: (text) => ({
      by,
      signature: sign(null, Buffer.from(text, 'utf8'), privateKey).toString('base64url'),
    }),
  };
}

const BASE64URL = /^[A-Za-z0-9_-]+$/;
const isBase64Url = (value: unknown, length: number): boolean =>
  typeof value === 'string' && value.length === length && BASE64URL.test(value);

const BY_LENGTH = 43;
const SIGNATURE_LENGTH = 86;

export function isSigned(value: unknown): value is Signed {
  if (typeof value !== 'object' || value === null || Object.keys(value).length !== 2) return false;
  const { by, signature } = value as Readonly<Record<string, unknown>>;
  return isBase64Url(by, BY_LENGTH) && isBase64Url(signature, SIGNATURE_LENGTH);
}

/** Keys are sorted, and no field of an entry comes after this one. */
const fieldOf = ({ by, signature }: Signed): string =>
  `,"signed":{"by":"${by}","signature":"${signature}"}}`;

/** `unhashed` is the entry's line without its hash. */
export function signatureHolds(unhashed: Buffer, signed: Signed): boolean {
  const field = Buffer.from(fieldOf(signed), 'utf8');
  const body = unhashed.subarray(0, unhashed.length - field.length);
  if (!unhashed.subarray(body.length).equals(field)) return false;
  const text = Buffer.concat([body, Buffer.from('}')]);
  const key = publicKeyOf(signed.by);
  return key !== null && verify(null, text, key, Buffer.from(signed.signature, 'base64url'));
}

const keys = new Map<string, KeyObject | null>();
const MOST_KEYS = 64;

/** Null where these bytes are no key. Making a key takes as long as checking a signature. */
function publicKeyOf(by: string): KeyObject | null {
  const known = keys.get(by);
  if (known !== undefined) return known;
  if (keys.size >= MOST_KEYS) keys.clear();
  const made = attempt(() =>
    createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x: by }, format: 'jwk' }),
  );
  keys.set(by, made);
  return made;
}

function attempt<T>(action: () => T): T | null {
  try {
    return action();
  } catch {
    return null;
  }
}

const GROUP = 4;
const GROUPS = 8;

/** The first 128 bits of the public key's SHA-256, in groups that a person can compare. */
export function fingerprintOf(by: string): string {
  const hex = createHash('sha256').update(Buffer.from(by, 'base64url')).digest('hex');
  return Array.from({ length: GROUPS }, (_, at) => hex.slice(at * GROUP, (at + 1) * GROUP)).join(
    '-',
  );
}
