import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { CHAIN_START, nextEntry } from '../../../src/store/chain/chain-entry.ts';
import {
  personalFieldsOf,
  personalSha256Of,
  readPersonal,
  writePersonal,
} from '../../../src/store/chain/personal-file.ts';
import { recordsFolder } from '../records-folder.ts';

const PERSONAL = { salt: 'demo salt of 16 or more', fields: { technician: 'demo', by: 'a' } };
const TEXT = '{"fields":{"by":"a","technician":"demo"},"salt":"demo salt of 16 or more"}';
const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

describe('the file of personal data', () => {
  test('is one line of sorted JSON for its account alone, and its hash is that of the line', () => {
    const path = join(recordsFolder(), 'personal', '1.json');
    writePersonal(path, PERSONAL, 'new');
    expect(readFileSync(path, 'utf8')).toBe(`${TEXT}\n`);
    expect(statSync(path).mode & 0o777).toBe(0o600);
    expect(personalSha256Of(PERSONAL)).toBe(sha256(TEXT));
    expect(readPersonal(path)).toEqual({
      state: 'there',
      personal: PERSONAL,
      sha256: sha256(TEXT),
    });
  });

  test('is not written over unless that is meant', () => {
    const path = join(recordsFolder(), 'personal.json');
    writePersonal(path, PERSONAL, 'new');
    const other = { ...PERSONAL, fields: { by: 'b' } };
    expect(() => writePersonal(path, other, 'new')).toThrow(/EEXIST/);
    expect(readFileSync(path, 'utf8')).toBe(`${TEXT}\n`);
    writePersonal(path, other, 'instead');
    expect(readPersonal(path)).toMatchObject({ state: 'there', personal: other });
  });

  test('that is not there is missing', () => {
    expect(readPersonal(join(recordsFolder(), 'personal.json'))).toEqual({ state: 'missing' });
  });

  test.each([
    ['with a space more', TEXT.replace(',', ', ')],
    ['with a line feed more', `${TEXT}\n`],
    ['with a short salt', TEXT.replace('demo salt of 16 or more', 'short')],
    ['with a field too many', TEXT.replace('},', '},"note":"demo",')],
    ['with a field that is no text', TEXT.replace('"demo"', '7')],
    ['that is torn', TEXT.slice(0, 20)],
    ['that is empty', ''],
  ])('%s is unreadable, and has the hash of its bytes', (_, text) => {
    const path = join(recordsFolder(), 'personal.json');
    writeFileSync(path, `${text}\n`);
    expect(readPersonal(path)).toEqual({ state: 'unreadable', sha256: sha256(text) });
  });

  test('without its line feed is unreadable: every byte counts', () => {
    const path = join(recordsFolder(), 'personal.json');
    writeFileSync(path, TEXT);
    expect(readPersonal(path)).toEqual({ state: 'unreadable', sha256: sha256(TEXT) });
  });

  test('whose name is taken by a folder is unreadable', () => {
    const path = join(recordsFolder(), 'personal.json');
    mkdirSync(path);
    expect(readPersonal(path)).toEqual({ state: 'unreadable', sha256: sha256('') });
  });
});

describe('the people of an entry', () => {
  const entryWith = (personalSha256: string | null) =>
    nextEntry(CHAIN_START, {
      at: '2026-03-01T09:00:00.000Z',
      kind: 'amendment',
      id: 'demo',
      body: null,
      personalSha256,
    });

  test('are named only where their file has the hash that the entry states', () => {
    const folder = recordsFolder();
    const path = join(folder, 'personal', '1.json');
    expect(personalFieldsOf(folder, entryWith(personalSha256Of(PERSONAL)))).toBeNull();
    writePersonal(path, PERSONAL, 'new');
    expect(personalFieldsOf(folder, entryWith(personalSha256Of(PERSONAL)))).toEqual(
      PERSONAL.fields,
    );
    expect(personalFieldsOf(folder, entryWith('e'.repeat(64)))).toBeNull();
    expect(personalFieldsOf(folder, entryWith(null))).toBeNull();
    writeFileSync(path, TEXT);
    expect(personalFieldsOf(folder, entryWith(sha256(TEXT)))).toBeNull();
  });
});
