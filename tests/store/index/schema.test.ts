import { describe, expect, test } from 'vitest';
import { CHAIN_START, nextEntry } from '../../../src/store/chain/chain-entry.ts';
import { findRepairs } from '../../../src/store/index/find.ts';
import { MIGRATIONS, migrate, SCHEMA_VERSION, versionOf } from '../../../src/store/index/schema.ts';
import { type Database, openSqlite } from '../../../src/store/index/sqlite.ts';
import { createRowWriter } from '../../../src/store/index/store-rows.ts';
import { bodyOf } from '../records-folder.ts';

const ENTRY = nextEntry(CHAIN_START, {
  at: '2026-03-01T09:20:00.000Z',
  kind: 'repair',
  id: 'demo-1',
  body: bodyOf('demo-1'),
  personalSha256: null,
});

/** A database as a program of an older version left it, with a row in every table. */
function databaseOf(version: number): Database {
  const database = openSqlite(':memory:');
  for (const { sql, version: step } of MIGRATIONS.filter((one) => one.version <= version)) {
    database.exec(sql);
    database.exec(`PRAGMA user_version = ${step}`);
  }
  createRowWriter(database).insert(ENTRY, 100, { technician: 'demo technician' });
  return database;
}

const shapeOf = (database: Database): readonly unknown[] =>
  database.prepare('SELECT type, name, sql FROM sqlite_schema ORDER BY name').all();

describe('the steps of the schema', () => {
  test('are numbered from 1 without a gap', () => {
    expect(MIGRATIONS.map(({ version }) => version)).toEqual(MIGRATIONS.map((_, i) => i + 1));
  });

  test.each(MIGRATIONS.map(({ version }) => version))(
    'bring a database of version %d up to date and keep its rows',
    (version) => {
      const database = databaseOf(version);
      migrate(database);
      expect(versionOf(database)).toBe(SCHEMA_VERSION);
      expect(findRepairs(database, { technician: 'demo technician' })).toMatchObject([
        { id: 'demo-1', hash: ENTRY.hash, diameterM: 0.022 },
      ]);
      const fresh = openSqlite(':memory:');
      migrate(fresh);
      expect(shapeOf(database)).toEqual(shapeOf(fresh));
    },
  );

  test('done twice change nothing', () => {
    const database = databaseOf(SCHEMA_VERSION);
    const before = shapeOf(database);
    migrate(database);
    expect(shapeOf(database)).toEqual(before);
  });

  test('leave every filter with an index of its own', () => {
    const database = databaseOf(SCHEMA_VERSION);
    const columns = [
      ...['damage', 'end_reason', 'outcome', 'grade', 'unit', 'serial', 'lot'],
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
