import { existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import builtInJob from '../../../src/app/defaults/job.json' with { type: 'json' };
import { runHere } from '../here.ts';
import { runProgram, scratchFolder, writeJson } from '../process.ts';

const folder = scratchFolder();
const NAMES = { technician: 'Tarquin Demo', vehicle: 'DEMO-471', customer: 'Ottoline Demo' };
const records = (...args: readonly string[]) => runHere(['records', ...args], folder);
const at = (...path: readonly string[]): string => join(folder, 'records', ...path);
const json = async (...args: readonly string[]) =>
  JSON.parse((await records(...args, '--json')).out);

function filesWith(word: string, where = at()): readonly string[] {
  return readdirSync(where).flatMap((name) => {
    const path = join(where, name);
    if (statSync(path).isDirectory()) return filesWith(word, path);
    return readFileSync(path).includes(word) ? [path] : [];
  });
}

// One job, looked at in order: each test goes on from what the one before left.
describe('a repair and its record', () => {
  beforeAll(async () => {
    const job = writeJson(folder, 'job.json', { ...builtInJob, ...NAMES });
    // Ends early: the record of a job that was stopped is a record too.
    const { code } = await runHere(
      ['run', '--speed', 'max', '--job', job, '--fault', 'emergency-stop'],
      folder,
    );
    expect(code).toBe(4);
  });

  test('is found, shown and verified, and its journal names nobody', async () => {
    expect(await json('list', '--vehicle', 'demo-471')).toMatchObject([
      { id: 'demo-0001', endReason: 'alarm', doseVerdict: 'not cured', ...NAMES },
    ]);
    expect(await json('list', '--result', 'clear')).toEqual([]);
    const shown = await records('show', 'demo-0001');
    for (const name of Object.values(NAMES)) expect(shown.out).toContain(name);
    expect(await json('verify')).toMatchObject({
      ok: true,
      entries: 3,
      journals: 1,
      derived: 1,
      papers: 5,
    });
    expect((await records('verify')).out).toContain(
      '3 entries, 1 journal, 1 of them decided again, 5 pages and photographs, personal data of 1 entry.',
    );
    const journal = readFileSync(at('demo-0001', 'journal.jsonl'), 'utf8');
    for (const name of Object.values(NAMES)) expect(journal).not.toContain(name);
  });

  test('is found by what it does not show, and by its verdict', async () => {
    const listed = async (...args: readonly string[]) =>
      (await json('list', ...args)).map(({ id }: { readonly id: string }) => id);
    expect(await listed('--not-shown', 'dose')).toEqual(['demo-0001']);
    expect(await listed('--not-met', 'completed')).toEqual(['demo-0001']);
    expect(await listed('--not-shown', 'record')).toEqual([]);
    expect(await listed('--verdict', 'not-completed')).toEqual(['demo-0001']);
    expect(await listed('--verdict', 'within-limits')).toEqual([]);
    const misspelt = await records('list', '--not-shown', 'dos');
    expect([misspelt.code, misspelt.err]).toEqual([2, expect.stringContaining('seal, held')]);
  });

  test('is entered again the same, byte for byte, by the same run elsewhere', async () => {
    const args = ['run', '--speed', 'max', '--job', 'job.json', '--fault', 'emergency-stop'];
    await runHere([...args, '--records', 'again'], folder);
    for (const file of ['chain.jsonl', join('demo-0001', 'personal.json')]) {
      expect(readFileSync(join(folder, 'again', file))).toEqual(readFileSync(at(file)));
    }
  });

  test('takes an amendment, but none that names a person of it', async () => {
    const amend = (text: string) =>
      records('amend', 'demo-0001', '--text', text, '--by', 'quality');
    expect(await amend('told ottoline demo')).toMatchObject({ code: 2 });
    expect(await amend('a leg grew')).toMatchObject({ code: 0 });
    expect((await records('show', 'demo-0001')).out).toContain('a leg grew');
  });

  test('exports without people unless asked', async () => {
    // The table goes past the streams of this process.
    const plain = await runProgram(['records', 'export'], folder);
    const whole = await runProgram(['records', 'export', '--with-personal'], folder);
    expect([plain.code, whole.code]).toEqual([0, 0]);
    expect(plain.out).toContain('demo-0001');
    expect(plain.out).not.toContain(NAMES.customer);
    expect(whole.out).toContain(NAMES.customer);
    expect((await records('export', '--format', 'parquet')).code).toBe(2);
    expect((await records('export', '--out', join('none', 'x.csv'))).code).toBe(2);
  });

  test('is read without its database, with a word and exit code 1, and rebuilt', async () => {
    writeFileSync(at('meniscus.db'), 'garbage '.repeat(999));
    const listed = await records('list');
    expect(listed.code).toBe(1);
    expect(listed.out).toContain('demo-0001');
    expect(listed.err).toContain('meniscus records rebuild');
    expect(await records('rebuild')).toMatchObject({ code: 0 });
    expect(await records('list')).toMatchObject({ code: 0, err: '' });
  });

  test('loses its people for good, reports and all', async () => {
    const remove = (by: string) =>
      records('remove-personal', 'demo-0001', '--reason', 'asked for', '--by', by);
    expect(await remove(NAMES.technician)).toMatchObject({ code: 2 });
    expect(filesWith(NAMES.customer).length).toBeGreaterThan(2);
    expect(await remove('office')).toMatchObject({ code: 0 });
    for (const name of Object.values(NAMES)) expect(filesWith(name)).toEqual([]);
    expect(existsSync(at('demo-0001', 'certificate.pdf'))).toBe(true);
    const verified = await records('verify');
    expect(verified.code).toBe(0);
    expect(verified.out).toContain('demo-0001: personal data removed on');
  });

  test('that was changed is told with exit code 1 and the entry that says so', async () => {
    const path = at('demo-0001', 'journal.jsonl');
    writeFileSync(path, readFileSync(path, 'utf8').replace('demo-0001', 'demo-0002'));
    const { code, out } = await records('verify');
    expect(code).toBe(1);
    expect(out).toContain('First broken link:\n  journal at entry 1 (demo-0001)');
  });

  test('that lost chain and database is entered anew from its journal, and that is said', async () => {
    for (const name of readdirSync(at()).filter((file) => /^(chain|meniscus)\./.test(file))) {
      rmSync(at(name));
    }
    const { code, out } = await records('rebuild');
    expect(code).toBe(0);
    expect(out).toContain('Not proved');
    expect(out).toContain('Entered from its journal: demo-0001, entry 1');
    expect(await json('show', 'demo-0001')).toMatchObject({
      entries: [{ entry: { body: { entered: 'later, from its journal' } } }],
    });
  });
});

test.each([
  [['list', '--from', '2026-02-30'], 'YYYY-MM-DD'],
  [['list', '--from', '2026-02-02', '--to', '2026-02-01'], 'not before --from'],
  [['list', '--damage', 'dent'], 'bullseye'],
  [['list', '--limit', '0'], 'whole number'],
  [['list', '--records', 'none'], 'none: the file is missing'],
  [['verify', '--records', 'none'], 'none: the file is missing'],
  [['show', 'nobody', '--records', '.'], 'ID is "nobody"'],
])('%j is refused with exit code 2 and what is accepted', async (args, words) => {
  const { code, err } = await records(...args);
  expect(err).toContain(words);
  expect(code).toBe(2);
});
