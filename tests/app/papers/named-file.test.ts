import {
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, beforeEach, describe, expect, onTestFinished, test } from 'vitest';
import { namedFileProblem, writeNamed, writeNamedBy } from '../../../src/app/papers/named-file.ts';
import { runHere } from '../../cli/here.ts';
import { scratchFolder } from '../../cli/process.ts';
import { GOOD_JOB, journalOf } from '../../report/job-story.ts';
import { addRepair, journalTextOf, openedIn } from '../../store/records-folder.ts';

const CHAIN_LINE =
  '{"at":"2026-03-01T09:00:00.000Z","body":null,"hash":"0","id":"a","kind":"care","personalSha256":null,"previous":"0","seq":1}\n';

describe('a file that a person names', () => {
  let folder = '';
  let records = '';
  const at = (...path: readonly string[]): string => join(folder, ...path);
  const problem = (path: string, force = false): string | null =>
    namedFileProblem(path, { option: '--out', records, force, accepted: 'demo' })?.value ?? null;

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'meniscus-named-'));
    const made = folder;
    onTestFinished(() => rmSync(made, { recursive: true, force: true }));
    records = at('records');
    mkdirSync(at('records', 'demo-1'), { recursive: true });
    mkdirSync(at('records', 'personal'));
    writeFileSync(at('records', 'chain.jsonl'), CHAIN_LINE);
    writeFileSync(at('records', 'meniscus.db'), 'SQLite format 3\0');
    writeFileSync(at('records', 'demo-1', 'journal.jsonl'), journalOf(GOOD_JOB));
    writeFileSync(
      at('records', 'personal', '1.json'),
      '{"fields":{},"salt":"demo demo demo demo"}\n',
    );
    mkdirSync(at('elsewhere'));
  });

  test('is accepted where nothing is and no record lies', () => {
    expect(problem(at('table.csv'))).toBeNull();
    expect(problem(at('not', 'made', 'yet', 'chain.csv'))).toBeNull();
  });

  test.each([
    ['the chain', ['records', 'chain.jsonl']],
    ['a part of the chain', ['records', 'chain.jsonl.torn-at-7']],
    ['the index', ['records', 'meniscus.db']],
    ['the log of the index', ['records', 'meniscus.db-wal']],
    ['a journal', ['records', 'demo-1', 'journal.jsonl']],
    ['a journal that is not there', ['records', 'demo-2', 'journal.jsonl']],
    ['a chain in other letters', ['elsewhere', 'Chain.JSONL']],
    ['personal data', ['records', 'personal', '1.json']],
  ])('is refused in place of %s, even if the person insists', (_, path) => {
    expect([problem(at(...path)), problem(at(...path), true)]).toEqual([
      expect.stringContaining('never overwritten'),
      expect.stringContaining('never overwritten'),
    ]);
  });

  test.each([
    ['journal.jsonl', ['records', 'demo-1']],
    ['chain.jsonl', ['records']],
    ['meniscus.db', ['records']],
    ['1.json', ['records', 'personal']],
  ])('is refused where %s lies elsewhere under another name', (name, from) => {
    writeFileSync(at('elsewhere', 'table.csv'), readFileSync(at(...from, name)));
    expect(problem(at('elsewhere', 'table.csv'), true)).toContain('never overwritten');
    linkSync(at(...from, name), at('elsewhere', 'hard.csv'));
    expect(problem(at('elsewhere', 'hard.csv'), true)).toContain('never overwritten');
    symlinkSync(at(...from, name), at('elsewhere', 'soft.csv'));
    expect(problem(at('elsewhere', 'soft.csv'), true)).toContain('never overwritten');
  });

  test('is refused as a link to a chain, also where the chain no longer begins like one', () => {
    writeFileSync(at('records', 'chain.jsonl'), 'spoilt\n');
    symlinkSync(at('records', 'chain.jsonl'), at('elsewhere', 'soft.csv'));
    expect(problem(at('elsewhere', 'soft.csv'), true)).toContain('never overwritten');
  });

  test('is refused among records however its path is spelled, and taken if the person insists', () => {
    symlinkSync(at('records', 'demo-1'), at('elsewhere', 'link'));
    const inside = [
      at('records', 'table.csv'),
      at('records', 'demo-1', 'table.csv'),
      at('records', 'new', 'folder', 'table.csv'),
      at('elsewhere', 'link', 'table.csv'),
      join(at('elsewhere'), '..', 'records', 'table.csv'),
    ];
    for (const path of inside)
      expect(problem(path), path).toContain('inside the folder of records');
    for (const path of inside) expect(problem(path, true), path).toBeNull();
  });

  test('is refused in a folder of records that is not the one asked, known by what lies in it', () => {
    for (const mark of ['chain.jsonl', 'meniscus.db', 'journal.jsonl']) {
      mkdirSync(at('others', mark), { recursive: true });
      writeFileSync(at('others', mark, mark), '');
      expect(problem(at('others', mark, 'table.csv'))).toContain('inside the folder of records');
    }
    rmSync(at('records', 'chain.jsonl'));
    rmSync(at('records', 'meniscus.db'));
    expect(problem(at('records', 'table.csv'))).toContain('inside the folder of records');
  });

  test('is refused where a file is, unless the person insists, and never in place of a folder or device', () => {
    writeFileSync(at('table.csv'), 'mine');
    symlinkSync(at('nowhere'), at('dangling.csv'));
    for (const name of ['table.csv', 'dangling.csv']) {
      expect(problem(at(name))).toBe('there already');
      expect(problem(at(name), true)).toBeNull();
    }
    expect(problem(at('elsewhere'), true)).toBe('not a file');
    expect(problem('/dev/null', true)).toBe('not a file');
  });

  test('is written whole or not at all, and for its owner alone', () => {
    writeFileSync(at('table.csv'), 'before');
    expect(() =>
      writeNamedBy(at('table.csv'), (fresh) => {
        writeFileSync(fresh, 'half');
        throw new Error('disk full');
      }),
    ).toThrow('disk full');
    expect(readFileSync(at('table.csv'), 'utf8')).toBe('before');
    writeNamed(at('table.csv'), 'after');
    expect(readFileSync(at('table.csv'), 'utf8')).toBe('after');
    expect(statSync(at('table.csv')).mode & 0o777).toBe(0o600);
    expect(readdirSync(folder).sort()).toEqual(['elsewhere', 'records', 'table.csv']);
  });

  test('is not written over a chain or journal by a caller that did not ask', () => {
    for (const path of [at('records', 'chain.jsonl'), at('records', 'demo-1', 'journal.jsonl')]) {
      const before = readFileSync(path, 'utf8');
      expect(() => writeNamed(path, 'table')).toThrow('never overwritten');
      expect(readFileSync(path, 'utf8')).toBe(before);
    }
  });
});

describe('a command that writes where it is told', () => {
  const folder = scratchFolder();
  const records = join(folder, 'records');
  const journal = join(records, 'demo-1', 'journal.jsonl');
  const chain = join(records, 'chain.jsonl');

  beforeAll(() => {
    const store = openedIn(records);
    addRepair(records, store, 'demo-1');
    addRepair(records, store, 'demo-2');
    store.close();
    mkdirSync(join(folder, 'imported'));
    writeFileSync(join(folder, 'imported', 'journal.jsonl'), journalOf(GOOD_JOB));
  });

  const EXPORT = ['records', 'export', '--out'];
  test.each([
    [[...EXPORT, 'records/chain.jsonl'], 'never overwritten'],
    [[...EXPORT, 'records/chain.jsonl', '--force'], 'never overwritten'],
    [[...EXPORT, 'records/demo-1/journal.jsonl', '--force'], 'never overwritten'],
    [[...EXPORT, 'records/x/../demo-1/table.csv'], 'inside the folder of records'],
    [['report', 'imported', '--out', 'records/demo-2'], 'inside the folder of records'],
    [
      ['assess', '--intake', 'none.json', '--out', 'records/demo-2'],
      'inside the folder of records',
    ],
  ])('%j is refused, and chain and journals stay as they were', async (args, words) => {
    const before = [
      readFileSync(chain, 'utf8'),
      readdirSync(records),
      readdirSync(join(records, 'demo-2')),
    ];
    const { code, err } = await runHere(args, folder);
    expect(err).toContain(words);
    expect(code).toBe(2);
    expect([
      readFileSync(chain, 'utf8'),
      readdirSync(records),
      readdirSync(join(records, 'demo-2')),
    ]).toEqual(before);
    expect(readFileSync(journal, 'utf8')).toBe(journalTextOf('demo-1'));
  });

  test('exports in place of a file only if the person insists', async () => {
    writeFileSync(join(folder, 'table.csv'), 'mine');
    const first = await runHere([...EXPORT, 'table.csv'], folder);
    expect([first.code, readFileSync(join(folder, 'table.csv'), 'utf8')]).toEqual([2, 'mine']);
    expect((await runHere([...EXPORT, 'table.csv', '--force'], folder)).code).toBe(0);
    expect(readFileSync(join(folder, 'table.csv'), 'utf8')).toContain('demo-2');
    expect(existsSync(join(folder, 'table.csv.part'))).toBe(false);
  });
});
