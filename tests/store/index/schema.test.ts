import { describe, expect, test } from 'vitest';
import { CHAIN_START, nextEntry } from '../../../src/store/chain/chain-entry.ts';
import { findRepairs } from '../../../src/store/index/find.ts';
import { MIGRATIONS, migrate, SCHEMA_VERSION, versionOf } from '../../../src/store/index/schema.ts';
import { type Database, openSqlite } from '../../../src/store/index/sqlite.ts';
import { createRowWriter } from '../../../src/store/index/store-rows.ts';
import { bodyOf } from '../records-folder.ts';
import { olderDatabase } from './older-database.ts';

const ENTRY = nextEntry(CHAIN_START, {
  at: '2026-03-01T09:20:00.000Z',
  kind: 'repair',
  id: 'demo-1',
  body: bodyOf('demo-1'),
  personalSha256: null,
});

const TECHNICIAN = 'demo technician';

/** A database as a program of that version left it, with a row in every table that it had. */
function databaseOf(version: 1 | 2 | 3 | 4): Database {
  if (version !== 4) {
    return olderDatabase(':memory:', version, [
      { entry: ENTRY, endsAt: 100, technician: TECHNICIAN },
    ]);
  }
  const database = openSqlite(':memory:');
  migrate(database);
  createRowWriter(database).insert(ENTRY, 100, { technician: TECHNICIAN });
  return database;
}

const shapeOf = (database: Database): readonly unknown[] =>
  database.prepare('SELECT type, name, sql FROM sqlite_schema ORDER BY name').all();

describe('the steps of the schema', () => {
  test('are numbered from 1 without a gap', () => {
    expect(MIGRATIONS.map(({ version }) => version)).toEqual([1, 2, 3, 4]);
  });

  test.each([1, 2, 3, 4] as const)(
    'bring a database of version %d up to date and keep its rows',
    (version) => {
      const database = databaseOf(version);
      migrate(database);
      expect(versionOf(database)).toBe(SCHEMA_VERSION);
      expect(findRepairs(database, { technician: TECHNICIAN })).toMatchObject([
        { id: 'demo-1', hash: ENTRY.hash, diameterM: 0.022, job: 'demo-1', attempt: 1 },
      ]);
      const fresh = openSqlite(':memory:');
      migrate(fresh);
      expect(shapeOf(database)).toEqual(shapeOf(fresh));
    },
  );

  test('done twice change nothing', () => {
    const database = databaseOf(4);
    const before = shapeOf(database);
    migrate(database);
    expect(shapeOf(database)).toEqual(before);
  });

  test('leave every filter with an index of its own', () => {
    const database = databaseOf(4);
    const columns = [
      ...['damage', 'end_reason', 'outcome', 'grade', 'unit', 'serial', 'lot', 'verdict'],
      ...['technician', 'vehicle', 'customer'],
    ];
    for (const column of columns) {
      const plan = database
        .prepare(`EXPLAIN QUERY PLAN SELECT seq FROM repairs WHERE ${column} = ?`)
        .all('x');
      expect(JSON.stringify(plan)).toContain(`repairs_by_${column}`);
    }
  });
});
