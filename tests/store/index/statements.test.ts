import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openSqlite } from '../../../src/store/index/sqlite.ts';
import {
  inTransaction,
  isDatabaseError,
  pragmaOf,
  whileOpen,
} from '../../../src/store/index/statements.ts';

test('what fails in the middle leaves nothing behind, and the next transaction goes on', () => {
  whileOpen(openSqlite(':memory:'), (database) => {
    database.exec('CREATE TABLE x (a INTEGER PRIMARY KEY) STRICT');
    const insert = database.prepare('INSERT INTO x VALUES (?)');
    expect(() =>
      inTransaction(database, () => {
        insert.run(1);
        throw new Error('in the middle');
      }),
    ).toThrow('in the middle');
    const count = () => database.prepare('SELECT count(*) AS n FROM x').all();
    expect(count()).toEqual([{ n: 0 }]);
    expect(inTransaction(database, () => insert.run(2) && 'done')).toBe('done');
    expect(count()).toEqual([{ n: 1 }]);
  });
});

test('an error of the database is told from others, whoever opened it', () => {
  const errorOf = (action: () => unknown): unknown => {
    try {
      return action();
    } catch (error) {
      return error;
    }
  };
  whileOpen(openSqlite(':memory:'), (database) => {
    expect(isDatabaseError(errorOf(() => database.exec('SELECT * FROM none')))).toBe(true);
    expect(pragmaOf(database, 'user_version')).toBe(0);
    database.close();
  });
  expect(isDatabaseError(errorOf(() => openSqlite(join(tmpdir(), 'meniscus-none.db'), true)))).toBe(
    true,
  );
  expect(isDatabaseError(Object.assign(new Error('no file'), { code: 'ENOENT' }))).toBe(false);
});
