import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openSqlite } from '../../../src/store/index/sqlite.ts';
import { rebuildRecords } from '../../../src/store/verify/rebuild.ts';
import { verifyRecords } from '../../../src/store/verify/verify.ts';
import { addRepair, opened, openedIn, recordsFolder } from '../records-folder.ts';

const NAMES = { technician: 'demo technician', vehicle: 'DEMO 1' };
const IDS = ['demo-1', 'demo-2', 'demo-3', 'demo-4'];

function filled(): string {
  const folder = recordsFolder();
  const store = openedIn(folder);
  for (const id of IDS) addRepair(folder, store, id, {}, NAMES);
  store.close();
  return folder;
}

const chainOf = (folder: string): string => readFileSync(join(folder, 'chain.jsonl'), 'utf8');
const all = (folder: string) => {
  const store = opened(folder, { readOnly: true });
  return { found: store.find({}), entries: store.entries() };
};

describe('a rebuilt database', () => {
  test('says all that the old one said, and the old one is kept', () => {
    const folder = filled();
    const before = all(folder);
    const chain = chainOf(folder);
    const rebuilt = rebuildRecords(folder, 'mark');
    expect(rebuilt).toMatchObject({ chain: 'whole', proven: 4, entries: 4, broken: null });
    expect(existsSync(join(folder, 'meniscus.db.before-mark'))).toBe(true);
    expect(all(folder)).toEqual(before);
    expect(chainOf(folder)).toBe(chain);
    expect(verifyRecords(folder, () => undefined)).toMatchObject({ ok: true, remarks: [] });
  });

  test.each([
    ['missing', (path: string) => rmSync(path)],
    ['garbage', (path: string) => writeFileSync(path, 'garbage '.repeat(999))],
  ])('takes the place of one that is %s', (_, damage) => {
    const folder = filled();
    const before = all(folder);
    for (const name of readdirSync(folder).filter((file) => /^meniscus\.db-/.test(file))) {
      rmSync(join(folder, name));
    }
    damage(join(folder, 'meniscus.db'));
    expect(rebuildRecords(folder, 'mark')).toMatchObject({ chain: 'whole', proven: 4 });
    const store = opened(folder, { readOnly: true });
    expect([store.find({}), store.source(), store.notes()]).toEqual([before.found, 'database', []]);
  });
});

describe('a damaged chain', () => {
  const DAMAGES: readonly (readonly [string, (text: string) => string | null])[] = [
    ['is gone', () => null],
    ['lost its end', (text) => `${text.split('\n').slice(0, 2).join('\n')}\n`],
    ['has a byte changed in its middle', (text) => text.replace('"seq":2', '"seq":7')],
    ['has a line spoilt', (text) => text.split('\n').with(1, 'spoilt').join('\n')],
    ['ends in the middle of a line', (text) => text.slice(0, -100)],
  ];

  test.each(DAMAGES)('that %s is put back from the database, byte for byte', (_, damage) => {
    const folder = filled();
    const chain = chainOf(folder);
    const left = damage(chain);
    if (left === null) rmSync(join(folder, 'chain.jsonl'));
    else writeFileSync(join(folder, 'chain.jsonl'), left);
    expect(rebuildRecords(folder, 'mark')).toMatchObject({ chain: 'restored', proven: 4 });
    expect(chainOf(folder)).toBe(chain);
    if (left !== null) {
      expect(readFileSync(join(folder, 'chain.jsonl.before-mark'), 'utf8')).toBe(left);
    }
    expect(verifyRecords(folder, () => undefined).ok).toBe(true);
  });

  test('that no database can prove is left as it is, with what holds and what does not', () => {
    const folder = filled();
    for (const name of readdirSync(folder).filter((file) => file.startsWith('meniscus.db'))) {
      rmSync(join(folder, name));
    }
    const spoilt = chainOf(folder).split('\n').with(2, 'spoilt').join('\n');
    writeFileSync(join(folder, 'chain.jsonl'), spoilt);
    expect(rebuildRecords(folder, 'mark')).toMatchObject({
      chain: 'broken',
      proven: 2,
      entries: 3,
      broken: { seq: 3 },
    });
    expect(chainOf(folder)).toBe(spoilt);
    expect(all(folder).found.map(({ id }) => id)).toEqual(['demo-4', 'demo-2', 'demo-1']);
  });

  test('that is cut off where the database knows more, but not how, is not called whole', () => {
    const folder = filled();
    const left = `${chainOf(folder).split('\n').slice(0, 2).join('\n')}\n`;
    writeFileSync(join(folder, 'chain.jsonl'), left);
    const database = openSqlite(join(folder, 'meniscus.db'));
    database.exec('DELETE FROM entries WHERE seq = 3');
    database.close();
    expect(rebuildRecords(folder, 'mark')).toMatchObject({
      chain: 'broken',
      proven: 2,
      broken: { what: 'end of the chain', seq: 3 },
    });
    expect(chainOf(folder)).toBe(left);
  });

  test('that is gone together with the database proves nothing', () => {
    const folder = filled();
    for (const name of readdirSync(folder).filter((file) => /^(chain|meniscus)\./.test(file))) {
      rmSync(join(folder, name));
    }
    expect(rebuildRecords(folder, 'mark')).toMatchObject({ chain: 'empty', entries: 0, aside: [] });
    for (const id of IDS) expect(existsSync(join(folder, id, 'journal.jsonl'))).toBe(true);
  });
});
