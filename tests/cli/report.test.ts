import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { DOT_PNG, JOB } from '../document/document-data.ts';
import { readPdf, squeezed } from '../document/pdf-text.ts';
import { GOOD_JOB, journalOf } from '../report/job-story.ts';
import { runHere } from './here.ts';
import { scratchFolder, writeJson } from './process.ts';

const folder = scratchFolder();
const job = join(folder, 'records', 'demo-1');

beforeAll(() => {
  mkdirSync(job, { recursive: true });
  writeFileSync(join(job, 'journal.jsonl'), journalOf(GOOD_JOB, { job: JOB }));
  writeFileSync(join(folder, 'dot.png'), DOT_PNG);
});

const report = (...args: readonly string[]) => runHere(['report', ...args], folder);
const ALL = [
  'certificate.html',
  'certificate.pdf',
  'journal.jsonl',
  'report.html',
  'report.json',
  'report.pdf',
];

test('a record’s name is enough for certificate and report beside its journal', async () => {
  const { code, out } = await report('demo-1');
  expect(code).toBe(0);
  expect(readdirSync(job).sort()).toEqual(ALL);
  for (const name of ['report.pdf', 'certificate.html']) {
    expect(out).toContain(join('records', 'demo-1', name));
  }
  expect(readPdf(readFileSync(join(job, 'certificate.pdf'))).pages).toBe(1);
});

test('only what is asked for is written, where it is asked for, and told as data', async () => {
  const { code, out } = await report(
    ...['records/demo-1/journal.jsonl', '--certificate', '--format', 'pdf', '--json'],
    ...['--out', 'elsewhere', '--agreement', 'A mark may stay.', '--photo-before', 'dot.png'],
  );
  expect(code).toBe(0);
  expect(readdirSync(join(folder, 'elsewhere'))).toEqual(['certificate.pdf']);
  const { text } = readPdf(readFileSync(join(folder, 'elsewhere', 'certificate.pdf')));
  expect(squeezed(text)).toContain('Amarkmaystay.');
  expect(text).toContain('Before');
  const told = JSON.parse(out);
  expect(told).toMatchObject({
    verdict: { grade: 'good' },
    doses: [{ doseJPerM2: 60_200, verdict: 'met' }],
    files: [join('elsewhere', 'certificate.pdf')],
  });
});

test.each([
  ['that is not there', 'nowhere.jpg', /nowhere\.jpg: the file is not readable/],
  ['of another kind', writeJson(folder, 'photo.txt', 'no picture'), /photo\.txt.*JPEG or PNG/],
  ['that is broken', writeJson(folder, 'half.png', ''), /half\.png.*broken/],
])('a photograph %s is refused with its path, and no page is written', async (_, path, words) => {
  if (path.endsWith('half.png')) writeFileSync(path, DOT_PNG.subarray(0, 30));
  const { code, err } = await report('demo-1', '--photo-after', path, '--out', 'refused');
  expect(code).toBe(2);
  expect(err).toMatch(words);
  expect(existsSync(join(folder, 'refused'))).toBe(false);
});

test.each([
  [['nobody'], /nobody: the file is not readable/],
  [['demo-1', '--format', 'docx'], /accepted: html, pdf/],
  [['demo-1', '--agreement', ' '], /accepted: a text of 1 to 1000 characters/],
])('%j is refused', async (args, words) => {
  const { code, err } = await report(...args);
  expect(code).toBe(2);
  expect(err).toMatch(words);
});
