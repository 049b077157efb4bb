import { appendFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { nextEntry } from '../../../src/store/chain/chain-entry.ts';
import type { Finding } from '../../../src/store/chain/finding.ts';
import { openSqlite } from '../../../src/store/index/sqlite.ts';
import { verifyRecords } from '../../../src/store/verify/verify.ts';
import { addRepair, folderForFile, opened, openedIn, recordsFolder } from '../records-folder.ts';

const verified = (folder: string) => verifyRecords(folder, () => undefined);
const NAMES = { technician: 'demo technician', vehicle: 'DEMO 1' };

function filled(folder: string): void {
  const store = openedIn(folder);
  for (const id of ['demo-1', 'demo-2', 'demo-3']) addRepair(folder, store, id, {}, NAMES);
  const care = { at: '2026-03-02T09:00:00.000Z', kind: 'care' as const, id: 'care-1' };
  store.append({ ...care, body: { what: 'service' }, personal: { by: 'demo person' } });
  store.close();
}

/** Which file, and which entry of the chain is the first that vouches for it. */
const FILES: readonly (readonly [string, Finding['where'], number])[] = [
  ['demo-1/journal.jsonl', 'journal', 1],
  ['demo-3/journal.jsonl', 'journal', 3],
  ['demo-2/personal.json', 'personal data', 2],
  ['personal/4.json', 'personal data', 4],
];

describe('records as they were written', () => {
  const folder = folderForFile();
  beforeAll(() => filled(folder));

  test('are verified: every link, journal and commitment holds', () => {
    expect(verified(folder)).toMatchObject({
      ok: true,
      first: null,
      entries: 4,
      journals: 3,
      personal: { kept: 4, removed: 0 },
      remarks: [],
    });
  });

  /** Changes one byte, looks, and puts it back. */
  function withChanged<T>(file: string, place: number, value: number, look: () => T): T {
    const path = join(folder, file);
    const whole = readFileSync(path);
    const changed = Buffer.from(whole);
    changed[place] = value;
    writeFileSync(path, changed);
    try {
      return look();
    } finally {
      writeFileSync(path, whole);
    }
  }

  const byteOf = (file: string) =>
    fc
      .tuple(fc.nat(readFileSync(join(folder, file)).length - 1), fc.integer({ min: 0, max: 255 }))
      .filter(([place, value]) => readFileSync(join(folder, file))[place] !== value);

  test('of which any byte of the chain is another are found out at that very entry', () => {
    const bytes = readFileSync(join(folder, 'chain.jsonl'));
    fc.assert(
      fc.property(byteOf('chain.jsonl'), ([place, value]) => {
        const seq = bytes.subarray(0, place).filter((byte) => byte === 0x0a).length + 1;
        const { ok, first } = withChanged('chain.jsonl', place, value, () => verified(folder));
        expect(ok).toBe(false);
        expect(first).toMatchObject({ where: 'chain', seq });
      }),
      { numRuns: 150 },
    );
  });

  test.each(FILES)(
    'of which any byte of %s is another are found out by name',
    (file, where, seq) => {
      fc.assert(
        fc.property(byteOf(file), ([place, value]) => {
          const { ok, first } = withChanged(file, place, value, () => verified(folder));
          expect(ok).toBe(false);
          expect(first).toMatchObject({ where, seq });
        }),
        { numRuns: 40 },
      );
    },
  );
});

describe('a broken record', () => {
  test.each([
    ['demo-2/journal.jsonl', 'journal'],
    ['demo-2/personal.json', 'personal data'],
  ])('of which %s is gone is named with what was expected', (file, where) => {
    const folder = recordsFolder();
    filled(folder);
    rmSync(join(folder, file));
    const { ok, first } = verified(folder);
    expect(ok).toBe(false);
    expect(first).toMatchObject({ where, seq: 2, id: 'demo-2' });
    expect(first?.found).toContain('no file');
  });

  test('in which two entries changed places names the first of them', () => {
    const folder = recordsFolder();
    filled(folder);
    const path = join(folder, 'chain.jsonl');
    const [a, b, c, ...rest] = readFileSync(path, 'utf8').split('\n');
    writeFileSync(path, [a, c, b, ...rest].join('\n'));
    expect(verified(folder).first).toMatchObject({ where: 'chain', seq: 2, found: '3' });
  });

  test('with an entry put in between, well hashed, breaks at the entry after it', () => {
    const folder = recordsFolder();
    filled(folder);
    const path = join(folder, 'chain.jsonl');
    const [a = '', , ...rest] = readFileSync(path, 'utf8').split('\n');
    const forged = nextEntry(JSON.parse(a), {
      at: '2026-03-01T10:00:00.000Z',
      kind: 'care',
      id: 'forged',
      body: {},
      personalSha256: null,
    });
    writeFileSync(
      path,
      [a, JSON.stringify(forged, Object.keys(forged).toSorted()), ...rest].join('\n'),
    );
    expect(verified(folder).first).toMatchObject({
      where: 'database',
      seq: 2,
      what: 'line of the entry',
    });
    rmSync(join(folder, 'meniscus.db'));
    expect(verified(folder).first).toMatchObject({ seq: 3, what: 'hash of the entry before' });
  });

  test('that was cut at a whole line is found out by the database, and not without it', () => {
    const folder = recordsFolder();
    filled(folder);
    const path = join(folder, 'chain.jsonl');
    const lines = readFileSync(path, 'utf8').split('\n');
    writeFileSync(path, `${lines.slice(0, 3).join('\n')}\n`);
    const { ok, first } = verified(folder);
    expect(ok).toBe(false);
    expect(first).toMatchObject({ where: 'chain', seq: 4, what: 'end of the chain' });
    rmSync(join(folder, 'meniscus.db'));
    expect(verified(folder)).toMatchObject({ ok: true, entries: 3 });
  });

  test('ends in a torn line: that is named', () => {
    const folder = recordsFolder();
    filled(folder);
    appendFileSync(join(folder, 'chain.jsonl'), '{"at":"2026');
    expect(verified(folder).first).toMatchObject({ where: 'chain', seq: 5, what: 'the last line' });
  });

  test.each([
    ['UPDATE repairs SET dose_j_per_m2 = 1 WHERE seq = 2', 'columns of the repair'],
    ["UPDATE personal SET value = 'another' WHERE seq = 2", 'personal fields'],
    ['DELETE FROM personal WHERE seq = 2', 'personal fields'],
    ["UPDATE entries SET line = '{}' WHERE seq = 2", 'line of the entry'],
    ['DELETE FROM repairs WHERE seq = 2', 'columns of the repair'],
  ])('in the database alone is found out after %s', (sql, what) => {
    const folder = recordsFolder();
    filled(folder);
    const database = openSqlite(join(folder, 'meniscus.db'));
    database.exec(sql);
    database.close();
    expect(verified(folder).first).toMatchObject({ where: 'database', seq: 2, what });
  });
});

test('a journal that no entry knows is worth a word and no damage', () => {
  const folder = recordsFolder();
  addRepair(folder, opened(folder), 'demo-1');
  mkdirSync(join(folder, 'demo-2'));
  writeFileSync(join(folder, 'demo-2', 'journal.jsonl'), 'x');
  const { ok, remarks } = verified(folder);
  expect(ok).toBe(true);
  expect(remarks).toEqual([expect.stringContaining('demo-2 has a journal but no entry')]);
});
