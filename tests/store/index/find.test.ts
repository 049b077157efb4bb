import { beforeAll, describe, expect, test } from 'vitest';
import { exportColumns } from '../../../src/store/export/export-columns.ts';
import { csvPieces, jsonPieces } from '../../../src/store/export/export-text.ts';
import type { RecordFilter } from '../../../src/store/index/find.ts';
import type { RecordsStore } from '../../../src/store/records-store.ts';
import {
  addRepair,
  bodyOf,
  folderForFile,
  opened,
  openedIn,
  recordsFolder,
} from '../records-folder.ts';

const folder = folderForFile();
let store: RecordsStore;
const { result } = bodyOf('');

beforeAll(() => {
  store = openedIn(folder);
  const { damage, resin, unit } = bodyOf('');
  addRepair(
    folder,
    store,
    'a',
    { startedAt: '2026-03-01T00:00:00.000Z' },
    { technician: 'Demo One', vehicle: 'DEMO 1' },
  );
  addRepair(
    folder,
    store,
    'b',
    {
      startedAt: '2026-03-01T23:59:59.999Z',
      damage: { ...damage, type: 'bullseye' },
      result: { ...result, outcome: 'mark-remains', grade: 'caution' },
      resin: { ...resin, lot: '=1+1' },
    },
    { technician: 'Demo Two', vehicle: 'DEMO 1', customer: 'demo "customer", one' },
  );
  addRepair(folder, store, 'c', {
    startedAt: '2026-03-02T00:00:00.000Z',
    unit: { ...unit, name: 'other unit' },
    result: { ...result, endReason: 'alarm', outcome: null, grade: 'bad' },
    dose: null,
  });
  return () => store.close();
});

const ids = (filter: RecordFilter): readonly string[] => store.find(filter).map(({ id }) => id);

describe('a filter', () => {
  const FILTERS: readonly (readonly [RecordFilter, readonly string[]])[] = [
    [{}, ['c', 'b', 'a']],
    [{ from: '2026-03-02' }, ['c']],
    [{ to: '2026-03-01' }, ['b', 'a']],
    [{ from: '2026-03-01', to: '2026-03-01' }, ['b', 'a']],
    [{ to: '2026-02-28' }, []],
    [{ vehicle: 'demo 1' }, ['b', 'a']],
    [{ technician: 'demo two' }, ['b']],
    [{ technician: 'demo' }, []],
    [{ vehicle: 'DEMO 1', technician: 'Demo One' }, ['a']],
    [{ customer: 'demo "customer", one' }, ['b']],
    [{ damage: 'bullseye' }, ['b']],
    [{ result: 'clear' }, ['a']],
    [{ result: 'mark-remains' }, ['b']],
    [{ result: 'alarm' }, ['c']],
    [{ result: 'bad' }, ['c']],
    [{ result: 'completed' }, ['b', 'a']],
    [{ unit: 'other unit' }, ['c']],
    [{ unit: 'demo-1' }, ['c', 'b', 'a']],
    [{ lot: '=1+1' }, ['b']],
    [{ limit: 2 }, ['c', 'b']],
    [{ technician: "x' OR '1'='1" }, []],
  ];

  test.each(FILTERS)('%o finds %o', (filter, expected) => {
    expect(ids(filter)).toEqual(expected);
  });

  test('goes on after a page, one repair at a time, without losing or repeating one', () => {
    const seen: string[] = [];
    for (let after: RecordFilter['after']; seen.length < 10; ) {
      const [row] = store.find({ limit: 1, after });
      if (row === undefined) break;
      seen.push(row.id);
      after = row;
    }
    expect(seen).toEqual(['c', 'b', 'a']);
  });
});

describe('an exported table', () => {
  const text = (pieces: Iterable<string>): string => [...pieces].join('');

  test('names no person unless asked to', () => {
    for (const pieces of [csvPieces, jsonPieces]) {
      const without = text(pieces(store.each({}), exportColumns(false)));
      const withThem = text(pieces(store.each({}), exportColumns(true)));
      for (const name of ['Demo One', 'DEMO 1', 'technician', 'customer']) {
        expect(without).not.toContain(name);
        expect(withThem).toContain(name);
      }
    }
  });

  test('in CSV has a head line and a line each, quotes what must be, and holds no formula', () => {
    const csv = text(csvPieces(store.each({}), exportColumns(true)));
    const lines = csv.split('\r\n');
    expect(lines).toHaveLength(5);
    expect(lines[0]).toMatch(/^id,entry,started_at,.*,technician,vehicle,customer$/);
    expect(lines[2]).toContain('"demo ""customer"", one"');
    expect(lines[2]).toContain(",'=1+1,");
    expect(lines[4]).toBe('');
  });

  test('says what the claims came to, and leaves it open where an entry states none', () => {
    const folder = recordsFolder();
    const other = opened(folder);
    const claim = (id: string, state: string) => ({ id, portion: null, state, against: [] });
    const claims = [
      ...[claim('dose', 'not met'), claim('seal', 'not shown')],
      ...[claim('clock', 'not shown'), claim('rules', 'shown')],
    ];
    addRepair(folder, other, 'judged', { result: { ...result, claims } });
    addRepair(folder, other, 'older', { result: { ...result, claims: null } });
    const [head = '', ...lines] = text(csvPieces(other.each({}), exportColumns(false))).split(
      '\r\n',
    );
    const from = head.split(',').indexOf('claims_shown');
    const cells = lines.map((line) => line.split(',').slice(from, from + 5));
    expect(head.split(',').slice(from, from + 5)).toEqual([
      ...['claims_shown', 'claims_not_shown', 'claims_not_met', 'not_shown', 'not_met'],
    ]);
    expect(cells.slice(0, 2)).toEqual([
      ['', '', '', '', ''],
      ['1', '2', '1', 'seal; clock', 'dose'],
    ]);
  });

  test('gives trade units: 60,200 J/m2 are 6020 mJ/cm2', () => {
    const rows = text(jsonPieces(store.each({}), exportColumns(false)))
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(rows.map(({ id, dose_mj_per_cm2: dose }) => [id, dose])).toEqual([
      ['c', null],
      ['b', 6020],
      ['a', 6020],
    ]);
    expect(rows[2]).toMatchObject({
      diameter_mm: 22,
      simulated: true,
      entry: 1,
      lot: 'demo-lot-1',
    });
  });
});
