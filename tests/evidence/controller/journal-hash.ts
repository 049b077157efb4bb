/**
 * The basis of a journal's hashes: SHA-256 by the vectors of its standard, and the canonical
 * spelling of JSON by the examples of RFC 8785, whose rules the journal follows.
 */
import { canonicalJson, sha256Of } from '../../../src/core/canonical-json.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

/** How many signs are alike, place by place; each that is over counts against it. */
function alike(found: string, wanted: string): number {
  const [signs, others] = [[...found], [...wanted]];
  const same = others.filter((sign, i) => signs[i] === sign).length;
  return same - Math.max(0, signs.length - others.length);
}

const hashRow = (what: string, text: string, digest: string): CheckRow => ({
  what: `hexadecimal digits alike in the hash of ${what}`,
  actual: () => alike(sha256Of(text), digest),
  expected: 64,
  tolerance: 0,
  unit: 'of 64',
  source: 'NIST, examples of FIPS 180-4, SHA-256, as quoted in test suites',
  obtained: 'seen second-hand',
});

const spellingRow = (what: string, value: unknown, spelling: string): CheckRow => ({
  what: `signs alike in ${what}`,
  actual: () => alike(canonicalJson(value), spelling),
  expected: [...spelling].length,
  tolerance: 0,
  unit: `of ${[...spelling].length}`,
  source: 'RFC 8785, sections 3.2.2 and 3.2.3, as quoted in test suites',
  obtained: 'seen second-hand',
});

/** As the RFC gives it, to be parsed first. */
const RFC_TEXT = String.raw`{
  "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
  "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
  "literals": [null, true, false]
}`;
const RFC_SPELLING =
  '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}';
/** Keys in the order of their code units: the one past the basic plane comes before U+FB33. */
const RFC_KEYS = {
  '\ufb33': 7,
  '\ud83d\ude00': 6,
  '\u20ac': 5,
  '\r': 1,
  '1': 2,
  '\u0080': 3,
  ö: 4,
};
const RFC_KEY_ORDER = '{"\\r":1,"1":2,"\u0080":3,"ö":4,"\u20ac":5,"\ud83d\ude00":6,"\ufb33":7}';

export const JOURNAL_HASH: CheckGroup = {
  title: "hash and spelling of the journal's inputs",
  rows: [
    hashRow('nothing', '', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'),
    hashRow('abc', 'abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'),
    hashRow(
      'a message of two blocks',
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ),
    hashRow(
      'a million times a',
      'a'.repeat(1_000_000),
      'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0',
    ),
    spellingRow('numbers, text and literals in one spelling', JSON.parse(RFC_TEXT), RFC_SPELLING),
    spellingRow('keys in their order', RFC_KEYS, RFC_KEY_ORDER),
  ],
};
