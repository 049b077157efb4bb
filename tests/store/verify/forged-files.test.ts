import { appendFileSync, copyFileSync, cpSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Finding } from '../../../src/store/chain/finding.ts';
import { createForging, drop, edit, swap } from './forging.ts';
import { entriesOf, LAST_SEQ, verified, writeEntries } from './signed-records.ts';

const { whole, unit, whileChanged } = createForging();

type Change = (folder: string) => void;

/** What was changed, how, and what is found first. */
const FOUND: readonly (readonly [string, Change, Partial<Finding>])[] = [
  [
    "another job's certificate over a job's own",
    (at) => copyFileSync(join(at, 'demo-1/certificate.pdf'), join(at, 'demo-2/certificate.pdf')),
    { where: 'papers', seq: 6, what: 'salted SHA-256 of certificate.pdf' },
  ],
  [
    'words in a certificate',
    (at) => edit(at, 'demo-2/certificate.html', 'of', 'off'),
    { where: 'papers', seq: 6, what: 'salted SHA-256 of certificate.html' },
  ],
  [
    'words in a report',
    (at) => edit(at, 'demo-1/report.html', 'of', 'off'),
    { where: 'papers', seq: 3, what: 'salted SHA-256 of report.html' },
  ],
  [
    'a byte more in a PDF file',
    (at) => appendFileSync(join(at, 'demo-3/report.pdf'), ' '),
    { where: 'papers', seq: 9, what: 'salted SHA-256 of report.pdf' },
  ],
  [
    'figures in report.json',
    (at) => edit(at, 'demo-2/report.json', 'of', 'off'),
    { where: 'papers', seq: 6, what: 'salted SHA-256 of report.json' },
  ],
  ['a page deleted', (at) => drop(at, 'demo-2/report.pdf'), { where: 'papers', found: 'no file' }],
  [
    'all pages deleted',
    (at) => drop(at, 'demo-3/certificate.html', 'demo-3/certificate.pdf', 'demo-3/report.json'),
    { where: 'papers', seq: 9, found: 'no file' },
  ],
  [
    'a page added',
    (at) => writeFileSync(join(at, 'demo-2/certificate.fr.html'), 'demo'),
    { where: 'papers', seq: 6, what: 'certificate.fr.html' },
  ],
  [
    'the certificates of two jobs exchanged',
    (at) => swap(at, 'demo-1/certificate.html', 'demo-2/certificate.html'),
    { where: 'papers', seq: 3, what: 'salted SHA-256 of certificate.html' },
  ],
  [
    'a photograph exchanged for another',
    (at) => writeFileSync(join(at, 'demo-1/photo-after.jpg'), 'demo'),
    { where: 'papers', seq: 3, what: 'salted SHA-256 of photo-after.jpg' },
  ],
  [
    'the photographs before and after exchanged',
    (at) => swap(at, 'demo-2/photo-before.jpg', 'demo-2/photo-after.jpg'),
    { where: 'papers', seq: 6 },
  ],
  [
    'a photograph deleted',
    (at) => drop(at, 'demo-2/photo-before.jpg'),
    { where: 'papers', seq: 6, found: 'no file' },
  ],
  ['a journal edited', (at) => edit(at, 'demo-2/journal.jsonl', '1,2', '1,3'), { seq: 5 }],
  [
    'the first line of a journal edited',
    (at) => edit(at, 'demo-2/journal.jsonl', 'demo-2', 'demo-x'),
    { where: 'journal', seq: 4, what: 'SHA-256 of the first line of demo-2/journal.jsonl' },
  ],
  [
    'the journals of two jobs exchanged',
    (at) => swap(at, 'demo-1/journal.jsonl', 'demo-2/journal.jsonl'),
    { where: 'journal', seq: 1 },
  ],
  [
    'a line cut from the end of a journal',
    (at) => edit(at, 'demo-3/journal.jsonl', '[1,2,3]\n', ''),
    { where: 'journal', seq: 8 },
  ],
  ["a job's folder deleted", (at) => drop(at, 'demo-2'), { where: 'journal', found: 'no file' }],
  [
    "a job's folder renamed",
    (at) => renameSync(join(at, 'demo-2'), join(at, 'demo-9')),
    { where: 'journal', seq: 4, found: 'no file' },
  ],
  [
    'the folder of a job that was begun and never ended deleted',
    (at) => {
      writeEntries(at, entriesOf(at).slice(0, 7));
      drop(at, 'demo-3', 'meniscus.db');
    },
    { where: 'journal', seq: 7, id: 'demo-3', found: 'no file' },
  ],
  [
    'a name in the personal data',
    (at) => edit(at, 'demo-2/personal.json', 'technician of', 'somebody'),
    { where: 'personal data', seq: 5 },
  ],
  [
    'the personal data of two jobs exchanged',
    (at) => swap(at, 'demo-1/personal.json', 'demo-2/personal.json'),
    { where: 'personal data', seq: 2 },
  ],
  [
    'personal data deleted without an entry that says so',
    (at) => drop(at, 'demo-3/personal.json'),
    { where: 'personal data', seq: 8 },
  ],
  [
    'the name of who amended',
    (at) => edit(at, 'personal/10.json', 'person', 'nobody'),
    { where: 'personal data', seq: 10 },
  ],
];

/** No damage that could be told from a person's right: it is said all the same. */
const SAID: readonly (readonly [string, Change, string])[] = [
  [
    'a photograph added',
    (at) => writeFileSync(join(at, 'demo-2/photo-after.png'), 'demo'),
    'demo-2: photo-after.png was added later, and no entry vouches for it',
  ],
  [
    "a job's folder copied under another name",
    (at) => cpSync(join(at, 'demo-2'), join(at, 'demo-9'), { recursive: true }),
    'demo-9 has a journal but no entry of its end',
  ],
];

test('records as they were written are verified, with every page, photograph and signature', () => {
  expect(verified(whole, unit().folder)).toMatchObject({
    ok: true,
    findings: [],
    remarks: [],
    entries: LAST_SEQ,
    journals: 3,
    papers: 21,
    keys: [{ from: 1, to: LAST_SEQ, entries: LAST_SEQ }],
    unsigned: 0,
  });
});

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
