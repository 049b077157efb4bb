import { createHash } from 'node:crypto';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { hashesIn, papersBodyOf, saltOf } from '../../../src/store/chain/papers-body.ts';
import { writePersonal } from '../../../src/store/chain/personal-file.ts';
import { recordsFolder } from '../records-folder.ts';

const SALT = 'demo salt of 16 or more';
const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

function jobFolder(files: Readonly<Record<string, string>>, named = true): string {
  const folder = join(recordsFolder(), 'demo-1');
  mkdirSync(folder);
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  const personal = { salt: SALT, fields: { technician: 'demo' } };
  if (named) writePersonal(join(folder, 'personal.json'), personal, 'new');
  return folder;
}

describe('the papers of a record', () => {
  test('are kept by salted hashes: pages that were written, and all photographs', () => {
    const folder = jobFolder({
      'report.html': 'page',
      'certificate.pdf': 'not written now',
      'photo-before.jpg': 'photo',
      'photo-of-a-dog.jpg': 'no photograph of the record',
    });
    const body = papersBodyOf(folder, [join(folder, 'report.html')], {});
    expect(body).toEqual({
      schema: 'meniscus/papers@1',
      salted: true,
      files: {
        'report.html': sha256(`${SALT}page`),
        'photo-before.jpg': sha256(`${SALT}photo`),
      },
      elsewhere: {},
    });
  });

  test('without people are kept by plain hashes', () => {
    const folder = jobFolder({ 'report.html': 'page' }, false);
    expect(saltOf(folder)).toBe('');
    const body = papersBodyOf(folder, [join(folder, 'report.html')], {});
    expect(body).toMatchObject({ salted: false, files: { 'report.html': sha256('page') } });
  });

  test('that were not written now keep their old hash, photographs only while they are there', () => {
    const folder = jobFolder({ 'report.html': 'new', 'certificate.html': 'changed since' });
    const before = { 'report.html': 'a', 'certificate.html': 'b', 'photo-after.png': 'c' };
    const body = papersBodyOf(folder, [join(folder, 'report.html')], before);
    expect(body?.files).toEqual({
      'report.html': sha256(`${SALT}new`),
      'certificate.html': 'b',
    });
  });

  test('in another folder are told apart; a link to the job’s folder is that folder', () => {
    const folder = jobFolder({ 'report.html': 'page' });
    const other = recordsFolder();
    writeFileSync(join(other, 'certificate.pdf'), 'paper');
    symlinkSync(folder, join(other, 'link'));
    const paths = [join(other, 'link', 'report.html'), join(other, 'certificate.pdf')];
    expect(papersBodyOf(folder, paths, {})).toMatchObject({
      files: { 'report.html': sha256(`${SALT}page`) },
      elsewhere: { 'certificate.pdf': sha256(`${SALT}paper`) },
    });
  });

  test('are not entered where the people’s file cannot be read', () => {
    const folder = jobFolder({ 'report.html': 'page' }, false);
    writeFileSync(join(folder, 'personal.json'), 'torn');
    expect(saltOf(folder)).toBeNull();
    expect(papersBodyOf(folder, [join(folder, 'report.html')], {})).toBeNull();
  });

  test('are read back from an entry, and only as texts', () => {
    const body = { files: { 'report.html': 'a', odd: 7 }, elsewhere: {} };
    expect(hashesIn(body, 'files')).toEqual({ 'report.html': 'a' });
    expect(hashesIn(body, 'elsewhere')).toEqual({});
    expect(hashesIn({ other: 1 }, 'files')).toEqual({});
  });
});
