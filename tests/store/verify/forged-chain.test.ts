import { cpSync, mkdirSync, rmSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Finding } from '../../../src/store/chain/finding.ts';
import { recordsFolder } from '../records-folder.ts';
import { appended, better, createForging, drop, edit, inDatabase, rechained } from './forging.ts';
import {
  addAmendment,
  entriesOf,
  fillSigned,
  LAST_SEQ,
  verified,
  writeEntries,
} from './signed-records.ts';

const { whole, unit, stranger, whileChanged } = createForging();

type Change = (folder: string) => void;

/** What was changed, how, and what is found first. */
const FOUND: readonly (readonly [string, Change, Partial<Finding>])[] = [
  [
    'an entry edited',
    (at) => edit(at, 'chain.jsonl', '"outcome":"clear"', '"outcome":"mark-remains"'),
    { where: 'chain', seq: 2, what: 'hash of the entry' },
  ],
  [
    'an entry edited, with every hash made again',
    (at) => rechained(at, better, 'as before'),
    { where: 'chain', seq: 5, what: 'signature' },
  ],
  [
    'an entry taken out, with every hash made again',
    (at) => rechained(at, (entries) => entries.filter(({ seq }) => seq !== 3), 'as before'),
    { where: 'chain', seq: 3, what: 'signature' },
  ],
  [
    'two entries exchanged, with every hash made again',
    (at) =>
      rechained(
        at,
        ([a, b, c, ...rest]) => [a, c, b, ...rest].flatMap((one) => one ?? []),
        'as before',
      ),
    { where: 'chain', seq: 2, what: 'signature' },
  ],
  [
    "an entry with another entry's signature",
    (at) =>
      rechained(
        at,
        (entries) =>
          entries.map((entry) =>
            entry.seq === 4 && entries[0]?.signed ? { ...entry, signed: entries[0].signed } : entry,
          ),
        'as before',
      ),
    { where: 'chain', seq: 4, what: 'signature' },
  ],
  [
    'an entry added at the end without a signature',
    (at) => appended(at, null, 'amendment'),
    { where: 'chain', seq: LAST_SEQ + 1, what: 'signature', found: 'none' },
  ],
  [
    'a removal of personal data added by nobody',
    (at) => appended(at, null, 'removal'),
    { where: 'chain', seq: LAST_SEQ + 1, what: 'signature' },
  ],
  [
    'the last entries cut, with their folder and the database',
    (at) => {
      writeEntries(at, entriesOf(at).slice(0, 6));
      drop(at, 'demo-3', 'meniscus.db');
    },
    { where: 'chain', seq: LAST_SEQ, what: 'an entry that this computer wrote' },
  ],
  [
    'chain and database deleted',
    (at) => drop(at, 'chain.jsonl', 'meniscus.db'),
    { where: 'chain', seq: LAST_SEQ, found: 'an end before it' },
  ],
  [
    'the last entries cut, and another written by the unit after that',
    (at) => {
      writeEntries(at, entriesOf(at).slice(0, 9));
      drop(at, 'meniscus.db');
      addAmendment(at, unit(), 'demo of another day');
    },
    { where: 'chain', seq: LAST_SEQ, what: 'an entry that this computer wrote' },
  ],
  [
    'every entry without its signature, with every hash made again',
    (at) => {
      rechained(at, better, null);
      drop(at, 'meniscus.db');
    },
    { where: 'chain', seq: LAST_SEQ, what: 'an entry that this computer wrote' },
  ],
  [
    'the whole folder exchanged for other records',
    (at) => {
      rmSync(at, { recursive: true });
      const other = recordsFolder();
      fillSigned(other, stranger());
      cpSync(other, at, { recursive: true });
    },
    { where: 'chain', seq: LAST_SEQ, what: 'an entry that this computer wrote' },
  ],
  [
    "a verdict in the database's columns",
    (at) => inDatabase(at, "UPDATE repairs SET outcome = 'mark-remains' WHERE seq = 5"),
    { where: 'database', seq: 5, what: 'columns of the repair' },
  ],
  [
    "a row of the database's entries",
    (at) => inDatabase(at, 'DELETE FROM entries WHERE seq = 4'),
    { where: 'database', seq: 4 },
  ],
];

/** No damage that could be told from a person's right: it is said all the same. */
const SAID: readonly (readonly [string, Change, string])[] = [
  [
    'an entry added at the end by another key',
    (at) => appended(at, stranger().signer, 'amendment'),
    'more than one unit key signed',
  ],
  [
    'a chain begun anew after the old one was deleted',
    (at) => {
      rmSync(at, { recursive: true });
      mkdirSync(at);
      fillSigned(at, unit(), 'another salt of 16 or more');
    },
    'this computer wrote another chain into this folder, which ended with entry 10',
  ],
];

test.each(FOUND)('%s: found', (_, change, expected) => {
  const { ok, findings } = whileChanged(change, () => verified(whole, unit().folder));
  expect(ok).toBe(false);
  expect(findings).toContainEqual(expect.objectContaining(expected));
  expect(findings[0]).toMatchObject(expected);
});

test.each(SAID)('%s: said', (_, change, words) => {
  const { remarks } = whileChanged(change, () => verified(whole, unit().folder));
  expect(remarks).toContainEqual(expect.stringContaining(words));
});

test('what another computer cannot know: a chain that was cut or signed anew as a whole', () => {
  const cut = whileChanged(
    (at) => {
      writeEntries(at, entriesOf(at).slice(0, 6));
      drop(at, 'demo-3', 'meniscus.db');
    },
    () => verified(whole, null),
  );
  expect(cut).toMatchObject({ ok: true, remarks: ['meniscus.db is missing; it can be rebuilt'] });
  const anew = whileChanged(
    (at) => {
      rechained(at, better, stranger().signer);
      drop(at, 'meniscus.db');
    },
    () => verified(whole, null),
  );
  // Only the fingerprint differs from the one on papers that were given out.
  expect(anew).toMatchObject({ ok: true, keys: [{ entries: LAST_SEQ }] });
  expect(anew.keys).not.toEqual(verified(whole, null).keys);
});
