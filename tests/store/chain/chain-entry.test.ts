import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalJson, sha256Of } from '../../../src/core/canonical-json.ts';
import {
  CHAIN_START,
  type ChainEntry,
  encodeEntry,
  expectedHash,
  isSignedRight,
  nextEntry,
  parseEntry,
} from '../../../src/store/chain/chain-entry.ts';
import { recordsFolder } from '../records-folder.ts';
import { unitIn } from '../verify/signed-records.ts';

const DRAFT = {
  at: '2026-03-01T09:00:00.000Z',
  kind: 'care',
  id: 'demo-1',
  body: { text: 'a "quoted" ,"hash":" text' },
  personalSha256: null,
} as const;

const entry = nextEntry(CHAIN_START, DRAFT);
const lineOf = (one: unknown): Buffer => Buffer.from(canonicalJson(one as ChainEntry), 'utf8');
const read = (change: object) => parseEntry(lineOf({ ...entry, ...change }).toString());

describe('an entry of the chain', () => {
  test('takes the next number, and the hash of the one before it', () => {
    expect(entry).toMatchObject({ ...DRAFT, seq: 1, previous: '0'.repeat(64) });
    const next = nextEntry(entry, DRAFT);
    expect(next).toMatchObject({ seq: 2, previous: entry.hash });
    expect(next.hash).not.toBe(entry.hash);
  });

  test('is read back as it was written', () => {
    expect(parseEntry(encodeEntry(entry))).toEqual(entry);
    const people = nextEntry(entry, { ...DRAFT, personalSha256: 'a'.repeat(64) });
    expect(parseEntry(encodeEntry(people))).toEqual(people);
  });

  const HASH = 'b'.repeat(64);
  test.each<[string, object]>([
    ['a number below one', { seq: 0 }],
    ['a number that is none', { seq: 1.5 }],
    ['a number as text', { seq: '1' }],
    ['no time', { at: null }],
    ['a day alone', { at: '2026-03-01' }],
    ['a local time', { at: '2026-03-01T09:00:00.000' }],
    ['more than a time', { at: '2026-03-01T09:00:00.000Z and more' }],
    ['an unknown kind', { kind: 'verdict' }],
    ['no name', { id: '' }],
    ['a name that is no text', { id: 7 }],
    ['people as a short hash', { personalSha256: 'abc' }],
    ['people as a number', { personalSha256: 7 }],
    ['a predecessor of 63 digits', { previous: HASH.slice(1) }],
    ['a predecessor of 65 digits', { previous: `${HASH}b` }],
    ['a predecessor in capitals', { previous: HASH.toUpperCase() }],
    ['a predecessor that is no text', { previous: [HASH] }],
    ['a hash of other letters', { hash: 'z'.repeat(64) }],
    ['a field too many', { note: 'demo' }],
    ['a signature that is none', { signed: 'demo' }],
    ['a signature of null', { signed: null }],
    ['a signature without its key', { signed: { signature: 'A'.repeat(86) } }],
    ['a signature that is too short', { signed: { by: 'A'.repeat(43), signature: 'A' } }],
    ['a signature of other letters', { signed: { by: 'A'.repeat(43), signature: '='.repeat(86) } }],
    [
      'a signature with a field too many',
      { signed: { by: 'A'.repeat(43), signature: 'A'.repeat(86), note: '' } },
    ],
  ])('with %s is none', (_, change) => {
    expect(read({})).toEqual(entry);
    expect(read(change)).toBeNull();
  });

  test.each(['seq', 'at', 'kind', 'id', 'body', 'personalSha256', 'previous', 'hash'] as const)(
    'without %s is none',
    (field) => {
      const { [field]: _, ...rest } = entry;
      expect(parseEntry(lineOf(rest).toString())).toBeNull();
    },
  );

  test.each(['', 'demo', '7', 'null', '[]', '{"seq":1'])('is not the line %j', (line) => {
    expect(parseEntry(line)).toBeNull();
  });

  test('states the SHA-256 of its own text without the hash', () => {
    const { hash, ...unhashed } = entry;
    expect(hash).toBe(sha256Of(canonicalJson(unhashed)));
    expect(expectedHash(lineOf(entry))).toBe(hash);
    expect(expectedHash(Buffer.from('{"seq":1}'))).toBeNull();
  });

  test('with any character changed states another hash than its own', () => {
    const line = lineOf(entry);
    const from = line.lastIndexOf(entry.hash);
    fc.assert(
      fc.property(fc.nat(line.length - 1), fc.integer({ min: 1, max: 255 }), (at, by) => {
        fc.pre(at < from - '"hash":"'.length || at > from + 64);
        const changed = Buffer.from(line);
        changed[at] = ((changed[at] ?? 0) + by) % 256;
        expect(expectedHash(changed)).not.toBe(entry.hash);
      }),
    );
  });
});

describe('a signed entry', () => {
  const signed = () => nextEntry(CHAIN_START, DRAFT, unitIn(recordsFolder()).signer);

  test('is signed right, and an unsigned one claims nothing', () => {
    const one = signed();
    expect(one.signed?.by).toHaveLength(43);
    expect(parseEntry(encodeEntry(one))).toEqual(one);
    expect(isSignedRight(lineOf(one), one)).toBe(true);
    expect(isSignedRight(lineOf(entry), entry)).toBe(true);
  });

  test('whose text was changed is signed wrong, though its hash was made again', () => {
    const one = signed();
    const { hash: _, ...unhashed } = { ...one, body: { text: 'other' } };
    const changed = { ...unhashed, hash: sha256Of(canonicalJson(unhashed)) };
    expect(expectedHash(lineOf(changed))).toBe(changed.hash);
    expect(isSignedRight(lineOf(changed), changed)).toBe(false);
  });

  test('under the name of another key is signed wrong', () => {
    const one = signed();
    const { by = '' } = signed().signed ?? {};
    const renamed = { ...one, signed: { by, signature: one.signed?.signature ?? '' } };
    expect(isSignedRight(lineOf(renamed), renamed)).toBe(false);
    const noKey = { ...one, signed: { by: '_'.repeat(43), signature: 'A'.repeat(86) } };
    expect(isSignedRight(lineOf(noKey), noKey)).toBe(false);
  });

  test('whose line states no hash is signed wrong', () => {
    const one = signed();
    expect(isSignedRight(Buffer.from('{"seq":1}'), one)).toBe(false);
  });
});
