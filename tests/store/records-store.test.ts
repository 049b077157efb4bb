import {
  appendFileSync,
  existsSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { CHAIN_START } from '../../src/store/chain/chain-entry.ts';
import { newerDatabase } from '../../src/store/index/index-file.ts';
import { openSqlite } from '../../src/store/index/sqlite.ts';
import { openRecords } from '../../src/store/records-store.ts';
import { addRepair, opened, recordsFolder } from './records-folder.ts';

const NAMES = { technician: 'demo technician', vehicle: 'DEMO 1' };

describe('a folder of records', () => {
  test('begins empty, and what is appended can be found, shown and read by kind', () => {
    const folder = recordsFolder();
    const store = opened(folder);
    expect(store.head()).toEqual(CHAIN_START);
    const repair = addRepair(folder, store, 'demo-0001', {}, NAMES);
    const care = store.append({
      at: '2026-03-02T09:00:00.000Z',
      kind: 'care',
      id: 'care-1',
      body: { what: 'service' },
      personal: { by: 'demo person' },
    });
    expect(repair).toMatchObject({ seq: 1, previous: CHAIN_START.hash });
    expect(care).toMatchObject({ seq: 2, previous: repair.hash });
    expect(store.head()).toEqual({ seq: 2, hash: care.hash });
    expect(store.entries('care')).toEqual([care]);
    expect(store.entries()).toEqual([repair, care]);
    expect(store.find({})).toMatchObject([{ id: 'demo-0001', hash: repair.hash, ...NAMES }]);
    expect(store.show('demo-0001')).toMatchObject({
      repair: { id: 'demo-0001' },
      entries: [{ entry: repair, personal: NAMES }],
    });
    expect(store.show('care-1')?.entries).toEqual([
      { entry: care, personal: { by: 'demo person' } },
    ]);
    expect(store.show('nothing')).toBeNull();
    expect(store.notes()).toEqual([]);
  });

  test('holds no personal data in the chain', () => {
    const folder = recordsFolder();
    addRepair(folder, opened(folder), 'demo-0001', {}, NAMES);
    const chain = readFileSync(join(folder, 'chain.jsonl'), 'utf8');
    for (const name of Object.values(NAMES)) expect(chain).not.toContain(name);
  });

  test('gives the same names another commitment each time: it cannot be guessed', () => {
    const folder = recordsFolder();
    const store = opened(folder);
    const [a, b] = ['a', 'b'].map((id) => addRepair(folder, store, id, {}, NAMES).personalSha256);
    expect(a).not.toBe(b);
  });

  test('that is written by two programs in turn stays one chain', () => {
    const folder = recordsFolder();
    const one = opened(folder);
    const other = opened(folder);
    for (const [index, store] of [one, other, one, other].entries()) {
      addRepair(folder, store, `demo-${index}`);
    }
    expect(one.entries().map(({ seq }) => seq)).toEqual([1, 2, 3, 4]);
    expect(other.entries()).toEqual(one.entries());
  });

  test('is not made by reading', () => {
    const folder = recordsFolder();
    expect(openRecords(join(folder, 'none'), { readOnly: true })).toMatchObject({
      ok: false,
      problems: [{ value: 'missing' }],
    });
    expect(existsSync(join(folder, 'none'))).toBe(false);
  });
});

describe('a kill in the middle of an append', () => {
  test('leaves a torn line that the next append puts aside, byte for byte', () => {
    const folder = recordsFolder();
    const before = opened(folder);
    const first = addRepair(folder, before, 'demo-1');
    before.close();
    const torn = '{"at":"2026-03-01T0';
    appendFileSync(join(folder, 'chain.jsonl'), torn);
    const store = opened(folder);
    const second = addRepair(folder, store, 'demo-2');
    expect(second).toMatchObject({ seq: 2, previous: first.hash });
    expect(store.entries()).toEqual([first, second]);
    const aside = readdirSync(folder).filter((name) => name.startsWith('chain.jsonl.torn-at-'));
    expect(aside.map((name) => readFileSync(join(folder, name), 'utf8'))).toEqual([torn]);
  });

  test.each([0, 1, 3])(
    'that left the index at entry %d is caught up in one go, in order',
    (known) => {
      const folder = recordsFolder();
      const store = opened(folder);
      const entries = [1, 2, 3, 4].map((n) => addRepair(folder, store, `demo-${n}`, {}, NAMES));
      store.close();
      const database = openSqlite(join(folder, 'meniscus.db'));
      for (const table of ['entries', 'repairs', 'personal']) {
        database.exec(`DELETE FROM ${table} WHERE seq > ${known}`);
      }
      database.close();
      const caughtUp = opened(folder);
      expect(caughtUp.notes()).toEqual([]);
      expect(caughtUp.entries()).toEqual(entries);
      const index = openSqlite(join(folder, 'meniscus.db'), true);
      const held = index.prepare('SELECT seq, hash FROM entries ORDER BY seq').all();
      index.close();
      expect(held).toEqual(entries.map(({ seq, hash }) => ({ seq, hash })));
    },
  );

  test('between chain and index is caught up by the next reader', () => {
    const folder = recordsFolder();
    const store = opened(folder);
    addRepair(folder, store, 'demo-1', {}, NAMES);
    store.close();
    const chain = readFileSync(join(folder, 'chain.jsonl'));
    const database = openSqlite(join(folder, 'meniscus.db'));
    for (const table of ['entries', 'repairs', 'personal']) database.exec(`DELETE FROM ${table}`);
    database.close();
    const reader = opened(folder, { readOnly: true });
    expect(reader.find({})).toMatchObject([{ id: 'demo-1', ...NAMES }]);
    expect([reader.source(), reader.notes()]).toEqual(['database', []]);
    expect(readFileSync(join(folder, 'chain.jsonl')).equals(chain)).toBe(true);
  });
});

describe('a database that cannot be used', () => {
  const DAMAGES: readonly (readonly [string, (path: string) => void])[] = [
    ['is missing', (path) => rmSync(path)],
    ['is garbage', (path) => writeFileSync(path, 'garbage '.repeat(2000))],
    ['is cut short', (path) => writeFileSync(path, readFileSync(path).subarray(0, 5000))],
    [
      'is garbage after its first page',
      (path) => {
        const bytes = readFileSync(path);
        writeFileSync(path, bytes.fill(0xa5, 4096));
      },
    ],
  ];

  test.each(DAMAGES)('because it %s is read around, and left as it is', (_, damage) => {
    const folder = recordsFolder();
    const before = opened(folder);
    for (const id of ['demo-1', 'demo-2']) addRepair(folder, before, id, {}, NAMES);
    const whole = before.find({ technician: 'DEMO technician' });
    before.close();
    const path = join(folder, 'meniscus.db');
    damage(path);
    const bytes = existsSync(path) ? readFileSync(path) : null;
    const reader = opened(folder, { readOnly: true });
    expect(reader.find({ technician: 'DEMO technician' })).toEqual(whole);
    expect(reader.source()).toBe('memory');
    expect(reader.notes().join()).toContain('meniscus records rebuild');
    expect(existsSync(path) ? readFileSync(path) : null).toEqual(bytes);
  });

  test.each(DAMAGES)('because it %s stops no append', (_, damage) => {
    const folder = recordsFolder();
    const before = opened(folder);
    const first = addRepair(folder, before, 'demo-1');
    before.close();
    damage(join(folder, 'meniscus.db'));
    const store = opened(folder);
    const second = addRepair(folder, store, 'demo-2');
    expect(second).toMatchObject({ seq: 2, previous: first.hash });
    expect(store.entries()).toEqual([first, second]);
    expect(readFileSync(join(folder, 'chain.jsonl'), 'utf8').split('\n')).toHaveLength(3);
  });

  test('because a newer program made it is refused by its version and not touched', () => {
    const folder = recordsFolder();
    opened(folder).close();
    const database = openSqlite(join(folder, 'meniscus.db'));
    database.exec('PRAGMA user_version = 99');
    database.close();
    expect(newerDatabase(folder)).toMatchObject({ value: 'of version 99' });
    for (const readOnly of [true, false]) {
      const refused = openRecords(folder, { readOnly });
      expect(refused).toMatchObject({ ok: false, problems: [{ value: 'of version 99' }] });
    }
  });
});
