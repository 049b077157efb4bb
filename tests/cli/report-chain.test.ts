import { createHash } from 'node:crypto';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { readPdf, squeezed } from '../document/pdf-text.ts';
import { GOOD_JOB, journalOf } from '../report/job-story.ts';
import { bodyOf, openedIn } from '../store/records-folder.ts';
import { runHere } from './here.ts';
import { scratchFolder } from './process.ts';

const folder = scratchFolder();
const records = join(folder, 'records');
const job = join(records, 'demo-1');
const journal = join(job, 'journal.jsonl');
const NAMES = { technician: 'Tarquin Demo' };
const report = (...args: readonly string[]) => runHere(['report', ...args], folder);
const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

/** A job with its journal, entered into the chain as a run enters it. */
beforeAll(() => {
  mkdirSync(job, { recursive: true });
  const text = journalOf(GOOD_JOB);
  writeFileSync(journal, text);
  const store = openedIn(records);
  const body = bodyOf('demo-1', { journal: { file: 'journal.jsonl', sha256: sha256(text) } });
  store.append({ at: body.endedAt, kind: 'repair', id: 'demo-1', body, personal: NAMES });
  store.close();
  cpSync(records, join(folder, 'whole'), { recursive: true });
});

beforeEach(() => {
  rmSync(records, { recursive: true });
  cpSync(join(folder, 'whole'), records, { recursive: true });
});

/** More light than there was, and the journal's own checksum computed again over that. */
function edit(): void {
  const lines = readFileSync(journal, 'utf8').trimEnd().split('\n');
  const { end } = JSON.parse(lines.pop() ?? '');
  const text = `${lines.join('\n').replace('"value":60200', '"value":66200')}\n`;
  expect(text).toContain('66200');
  writeFileSync(journal, `${text}${JSON.stringify({ end: { ...end, sha256: sha256(text) } })}\n`);
}

describe('a report of a recorded job', () => {
  test('is written without a mark while the journal is the one in the chain', async () => {
    const { code, out } = await report('demo-1');
    expect([code, out]).toEqual([0, expect.not.stringContaining('chain')]);
    const { text } = readPdf(readFileSync(join(job, 'report.pdf')));
    expect(squeezed(text)).not.toContain('DOESNOTAGREE');
    expect(squeezed(text)).not.toContain('NOTRECORDEDINACHAIN');
    expect(squeezed(text)).toContain('TarquinDemo');
  });

  test('is refused after the journal was edited, and nothing is written', async () => {
    edit();
    const { code, out, err } = await report('demo-1');
    expect(code).toBe(1);
    expect(out).toBe('');
    expect(err).toContain('does not agree with the chain of records: journal at entry 1 (demo-1)');
    for (const name of ['certificate.pdf', 'certificate.html', 'report.json']) {
      expect(existsSync(join(job, name)), name).toBe(false);
    }
  });

  test('is refused also through a link to the job’s folder, and from the folder itself', async () => {
    edit();
    rmSync(join(folder, 'link'), { force: true });
    symlinkSync(job, join(folder, 'link'));
    for (const named of ['link', job, journal]) expect((await report(named)).code, named).toBe(1);
  });

  test('is written on request, marked on every sheet and with no verdict that reads well', async () => {
    edit();
    const { code, err } = await report('demo-1', '--although-changed');
    expect([code, err]).toEqual([1, expect.stringContaining('every sheet says so')]);
    const data = JSON.parse(readFileSync(join(job, 'report.json'), 'utf8'));
    expect(data.verdict).toEqual({ process: 'record changed, process not judged', grade: 'bad' });
    for (const name of ['certificate', 'report']) {
      const { text } = readPdf(readFileSync(join(job, `${name}.pdf`)));
      expect(squeezed(text)).toContain('DOESNOTAGREEWITHTHECHAINOFRECORDS');
      // No place in the chain: the code is that of the journal itself.
      expect(squeezed(text)).not.toContain('meniscus:record:');
      expect(readFileSync(join(job, `${name}.html`), 'utf8')).not.toContain(
        'The process stayed within its limits',
      );
    }
  });

  test('of a journal in no chain says on every sheet that it is recorded nowhere', async () => {
    const imported = join(folder, 'imported');
    mkdirSync(imported, { recursive: true });
    writeFileSync(join(imported, 'journal.jsonl'), journalOf(GOOD_JOB));
    const { code, out } = await report('imported');
    expect([code, out]).toEqual([0, expect.stringContaining('Not recorded in a chain')]);
    const { text } = readPdf(readFileSync(join(imported, 'certificate.pdf')));
    expect(squeezed(text)).toContain('NOTRECORDEDINACHAIN');
  });

  test('names nobody where the names are not those that were recorded', async () => {
    const path = join(job, 'personal.json');
    writeFileSync(path, readFileSync(path, 'utf8').replace('Tarquin', 'Ottokar'));
    const { code } = await report('demo-1');
    expect(code).toBe(0);
    const { text } = readPdf(readFileSync(join(job, 'report.pdf')));
    expect(squeezed(text)).not.toContain('OttokarDemo');
    expect(squeezed(text)).toContain('personal.jsonisnottherecordedfile');
  });

  test('is not rewritten from an edited journal by a removal, which says so', async () => {
    await report('demo-1');
    edit();
    const { code, out } = await runHere(
      ['records', 'remove-personal', 'demo-1', '--reason', 'asked for', '--by', 'office'],
      folder,
    );
    expect([code, out]).toEqual([1, expect.stringContaining('not rewritten')]);
    expect(existsSync(join(job, 'certificate.pdf'))).toBe(false);
  });
});
