/** Repairs are found by what their claims came to, in the database and without one alike. */
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { ChainEntry } from '../../../src/store/chain/chain-entry.ts';
import type { ClaimEntry, RepairBody } from '../../../src/store/chain/repair-body.ts';
import { createChainIndex } from '../../../src/store/index/chain-index.ts';
import type { RecordFilter } from '../../../src/store/index/find.ts';
import { versionOf } from '../../../src/store/index/schema.ts';
import { openSqlite } from '../../../src/store/index/sqlite.ts';
import { verifyRecords } from '../../../src/store/verify/verify.ts';
import { addRepair, bodyOf, opened, openedIn, recordsFolder } from '../records-folder.ts';
import { olderDatabase } from './older-database.ts';

type States = readonly (readonly [id: string, state: string, portion?: string])[];

const resultOf = (states: States): RepairBody['result'] => ({
  ...bodyOf('').result,
  claims: states.map(
    ([id, state, portion = null]): ClaimEntry => ({ id, portion, state, against: [] }),
  ),
});

const JOBS: Readonly<Record<string, Partial<RepairBody>>> = {
  good: {
    result: resultOf([
      ['dose', 'shown'],
      ['clock', 'shown'],
    ]),
  },
  weak: {
    result: resultOf([
      ['dose', 'not shown'],
      ['clock', 'shown'],
      ['seal', 'not shown'],
    ]),
  },
  wrong: {
    result: resultOf([
      ['dose', 'not met'],
      ['clock', 'not shown'],
      ['seal', 'shown'],
    ]),
  },
  apart: {
    result: resultOf([
      ['dose', 'shown', 'fill'],
      ['dose', 'not met', 'pit'],
      ['dose', 'not shown', 'film'],
    ]),
  },
  newer: { result: resultOf([['dose', 'a state of a later version']]) },
  'before-claims': { result: { ...bodyOf('').result, claims: null } },
};

function filledFolder(): string {
  const folder = recordsFolder();
  const store = openedIn(folder);
  for (const [id, change] of Object.entries(JOBS)) {
    addRepair(folder, store, id, change, { technician: `demo ${id}` });
  }
  store.close();
  return folder;
}

const COLUMNS = [
  ['good', 2, 0, 0, '', ''],
  ['weak', 1, 2, 0, 'dose; seal', ''],
  ['wrong', 1, 1, 1, 'clock', 'dose'],
  ['apart', 0, 0, 1, '', 'dose'],
  ['newer', 0, 1, 0, 'dose', ''],
  ['before-claims', null, null, null, null, null],
];

const FOUND: readonly (readonly [RecordFilter, readonly string[]])[] = [
  [{ notShown: 'dose' }, ['newer', 'apart', 'wrong', 'weak']],
  [{ notMet: 'dose' }, ['apart', 'wrong']],
  [{ notShown: 'clock' }, ['wrong']],
  [{ notMet: 'clock' }, []],
  [{ notShown: 'dose', notMet: 'dose' }, ['apart', 'wrong']],
  [{ notShown: 'seal', technician: 'demo weak' }, ['weak']],
  [{ notShown: 'filled' }, []],
  [{ notShown: 'dose', limit: 1 }, ['newer']],
];

type Finder = Pick<ReturnType<typeof openedIn>, 'find'>;
const columnsIn = ({ find }: Finder) =>
  find({})
    .toReversed()
    .map((row) => [
      ...[row.id, row.claimsShown, row.claimsNotShown, row.claimsNotMet],
      ...[row.notShown, row.notMet],
    ]);
const idsIn = ({ find }: Finder, filter: RecordFilter) => find(filter).map(({ id }) => id);

describe('what the claims of a repair came to', () => {
  test('is counted and named, a claim on several portions by its worst', () => {
    const folder = filledFolder();
    expect(columnsIn(opened(folder))).toEqual(COLUMNS);
    expect(columnsIn(createChainIndex(folder))).toEqual(COLUMNS);
  });

  test.each(FOUND)('is searched for by %o', (filter, expected) => {
    const folder = filledFolder();
    const store = opened(folder);
    expect(store.source()).toBe('database');
    expect(idsIn(store, filter)).toEqual(expected);
    expect(idsIn(createChainIndex(folder), filter)).toEqual(expected);
  });

  test('is found by the whole verdict', () => {
    const folder = recordsFolder();
    const store = opened(folder);
    addRepair(folder, store, 'good');
    const verdict = 'process outside its limits';
    addRepair(folder, store, 'bad', { result: { ...bodyOf('').result, verdict } });
    expect(idsIn(store, { verdict })).toEqual(['bad']);
    expect(idsIn(createChainIndex(folder), { verdict })).toEqual(['bad']);
  });

  test.each([
    ["UPDATE repairs SET not_met = '' WHERE seq = 3", 'columns of the repair'],
    ["DELETE FROM open_claims WHERE claim = 'dose' AND seq = 3", 'claims of the repair'],
    ["INSERT INTO open_claims VALUES ('rules', 'not met', 3)", 'claims of the repair'],
  ])('cannot be changed in the database unseen: %s', (sql, what) => {
    const folder = filledFolder();
    const database = openSqlite(join(folder, 'meniscus.db'));
    database.exec(sql);
    database.close();
    expect(verifyRecords(folder, () => undefined)).toMatchObject({
      ok: false,
      first: { where: 'database', seq: 3, id: 'wrong', what },
    });
  });
});

describe.each([1, 2, 3] as const)('records with a database of version %d', (version) => {
  /** The lines of the chain as they stand, in a database that an older program left. */
  function olderFolder(): string {
    const folder = filledFolder();
    const path = join(folder, 'meniscus.db');
    for (const ending of ['', '-wal', '-shm']) rmSync(path + ending, { force: true });
    const lines = readFileSync(join(folder, 'chain.jsonl'), 'utf8').trimEnd().split('\n');
    let endsAt = 0;
    const rows = lines.map((line) => {
      const entry: ChainEntry = JSON.parse(line);
      endsAt += Buffer.byteLength(line) + 1;
      return { entry, endsAt, technician: `demo ${entry.id}` };
    });
    olderDatabase(path, version, rows).close();
    return folder;
  }

  test.each([true, false])(
    'are searched like new ones, opened for reading alone: %s',
    (readOnly) => {
      const folder = olderFolder();
      const store = opened(folder, { readOnly });
      expect([store.source(), store.notes()]).toEqual(['database', []]);
      expect(columnsIn(store)).toEqual(COLUMNS);
      for (const [filter, expected] of FOUND) expect(idsIn(store, filter)).toEqual(expected);
      expect(verifyRecords(folder, () => undefined)).toMatchObject({ ok: true, remarks: [] });
    },
  );

  test('whose step was broken off is left at its version, whole', () => {
    const folder = olderFolder();
    const path = join(folder, 'meniscus.db');
    const database = openSqlite(path);
    // A trigger of the test's own breaks the last insertion off.
    database.exec(
      "CREATE TRIGGER stop BEFORE INSERT ON repairs WHEN NEW.id = 'newer' BEGIN SELECT RAISE(ABORT, 'demo'); END",
    );
    database.close();
    const store = opened(folder, { readOnly: true });
    expect(store.source()).toBe('memory');
    expect(columnsIn(store)).toEqual(COLUMNS);
    const left = openSqlite(path, true);
    expect(versionOf(left)).toBe(version);
    expect(left.prepare('SELECT count(*) AS n FROM repairs').get()).toEqual({ n: 6 });
    left.close();
  });
});
