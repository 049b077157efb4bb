import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { RecordsStore } from '../../src/store/records-store.ts';
import { removePersonal } from '../../src/store/removal.ts';
import { recordsDue } from '../../src/store/retention.ts';
import { rebuildRecords } from '../../src/store/verify/rebuild.ts';
import { verifyRecords } from '../../src/store/verify/verify.ts';
import { addRepair, opened, recordsFolder } from './records-folder.ts';

const NAMES = { technician: 'Tarquin Demo', vehicle: 'DEMO-471', customer: 'Ottoline Demo' };
const AT = '2026-05-01T10:00:00.000Z';

const ORDER = { at: AT, reason: 'asked for', by: 'office' };
const removed = (store: RecordsStore, folder: string, ids: readonly string[]) =>
  removePersonal(store, { ...ORDER, folder, ids, rewrite: async () => null });

/** Every file of a folder, whatever it is called. */
function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesBelow(path) : [path];
  });
}

const filesWith = (folder: string, word: string): readonly string[] =>
  filesBelow(folder).filter((path) => readFileSync(path).includes(word));

const page = (names: string): string => `<p>${names}</p>`;

/** A repair whose report and certificate show its people. */
function shownRepair(folder: string, store: RecordsStore, id: string): void {
  addRepair(folder, store, id, {}, NAMES);
  for (const name of ['report.html', 'report.pdf', 'certificate.html', 'certificate.pdf']) {
    writeFileSync(join(folder, id, name), page(Object.values(NAMES).join()));
  }
}

describe('removing personal data', () => {
  test('leaves no trace of a name in any file, and verify stays green and says when', async () => {
    const folder = recordsFolder();
    const store = opened(folder);
    shownRepair(folder, store, 'demo-1');
    addRepair(folder, store, 'demo-2', {}, { technician: 'another demo person' });
    store.append({
      at: AT,
      kind: 'amendment',
      id: 'demo-1',
      body: { text: 'a leg grew' },
      personal: { by: NAMES.technician },
    });
    for (const name of Object.values(NAMES)) {
      expect(filesWith(folder, name).length).toBeGreaterThan(2);
    }
    const { records, traces, compacted } = await removePersonal(store, {
      ...ORDER,
      folder,
      ids: ['demo-1'],
      rewrite: async (jobFolder) => {
        writeFileSync(join(jobFolder, 'report.html'), page('removed'));
        return null;
      },
    });
    expect(records).toMatchObject([{ id: 'demo-1', state: 'removed', entry: { seq: 4 } }]);
    expect([traces, compacted]).toEqual([[], true]);
    for (const name of Object.values(NAMES)) expect(filesWith(folder, name)).toEqual([]);
    expect(readFileSync(join(folder, 'demo-1', 'report.html'), 'utf8')).toBe(page('removed'));
    expect(existsSync(join(folder, 'demo-1', 'certificate.pdf'))).toBe(false);
    expect(verifyRecords(folder, () => undefined)).toMatchObject({
      ok: true,
      findings: [],
      personal: { kept: 2, removed: 2 },
      removals: [{ id: 'demo-1', at: AT }],
    });
    expect(store.find({ technician: NAMES.technician })).toEqual([]);
    expect(store.find({ id: 'demo-1' })).toMatchObject([{ technician: null, removedAt: AT }]);
    expect(store.find({ id: 'demo-2' })).toMatchObject([{ technician: 'another demo person' }]);
  });

  test('takes old databases that a rebuild kept with it', async () => {
    const folder = recordsFolder();
    const before = opened(folder);
    addRepair(folder, before, 'demo-1', {}, NAMES);
    before.close();
    const { aside } = rebuildRecords(folder, 'mark');
    expect(aside.length).toBeGreaterThan(0);
    const { dropped } = await removed(opened(folder), folder, ['demo-1']);
    expect(dropped).toContain('meniscus.db.before-mark');
    for (const name of Object.values(NAMES)) expect(filesWith(folder, name)).toEqual([]);
  });

  test('that comes back by a copied file is found out', async () => {
    const folder = recordsFolder();
    const store = opened(folder);
    addRepair(folder, store, 'demo-1', {}, NAMES);
    const path = join(folder, 'demo-1', 'personal.json');
    const bytes = readFileSync(path);
    await removed(store, folder, ['demo-1']);
    writeFileSync(path, bytes);
    expect(verifyRecords(folder, () => undefined).first).toMatchObject({
      where: 'personal data',
      id: 'demo-1',
      expected: `none, removed on ${AT}`,
    });
    // Asked again, the removal that was told is done again and nothing new is told.
    const { records } = await removed(store, folder, ['demo-1']);
    expect(records).toMatchObject([{ state: 'removed', entry: null }]);
    expect(verifyRecords(folder, () => undefined).ok).toBe(true);
  });

  test('names a file of the job that still holds a word, and does not touch it', async () => {
    const folder = recordsFolder();
    const store = opened(folder);
    addRepair(folder, store, 'demo-1', {}, NAMES);
    const note = join(folder, 'demo-1', 'note.txt');
    writeFileSync(note, `${'x'.repeat(1024 * 1024 - 4)}${NAMES.customer}`);
    const { traces } = await removed(store, folder, ['demo-1']);
    expect(traces).toEqual([join('demo-1', 'note.txt')]);
    expect(existsSync(note)).toBe(true);
  });

  test('of what holds none, or is not there, appends nothing', async () => {
    const folder = recordsFolder();
    const store = opened(folder);
    addRepair(folder, store, 'demo-1');
    const head = store.head();
    const { records } = await removed(store, folder, ['demo-1', 'none']);
    expect(records.map(({ state }) => state)).toEqual(['nothing to remove', 'no such record']);
    expect(store.head()).toEqual(head);
  });
});

test('what is due by its age is care too, and who amended a record', async () => {
  const folder = recordsFolder();
  const store = opened(folder);
  addRepair(folder, store, 'demo-1', { startedAt: '2026-01-01T09:00:00.000Z' });
  const entry = (kind: 'care' | 'amendment', id: string, at: string) =>
    store.append({ at, kind, id, body: { text: 'demo' }, personal: { by: 'Demo Person' } });
  entry('care', 'care-1', '2026-01-02T09:00:00.000Z');
  entry('amendment', 'demo-1', '2026-01-03T09:00:00.000Z');
  const due = (before: string) => recordsDue(store, before).map(({ id }) => id);
  expect(due('2026-01-02T09:00:00.000Z')).toEqual([]);
  expect(due('2026-01-03T09:00:00.000Z')).toEqual(['care-1']);
  expect(due('2026-01-04T09:00:00.000Z')).toEqual(['care-1', 'demo-1']);
  await removed(store, folder, ['care-1', 'demo-1']);
  expect(due('2026-01-04T09:00:00.000Z')).toEqual([]);
});

test('what is due by its age is what is older than the moment and still held', async () => {
  const folder = recordsFolder();
  const store = opened(folder);
  const at = (startedAt: string) => ({ startedAt });
  addRepair(folder, store, 'old', at('2026-01-01T09:00:00.000Z'), NAMES);
  addRepair(folder, store, 'old-removed', at('2026-01-01T09:00:00.000Z'), NAMES);
  addRepair(folder, store, 'old-without', at('2026-01-01T09:00:00.000Z'));
  addRepair(folder, store, 'edge', at('2026-01-02T09:00:00.000Z'), NAMES);
  addRepair(folder, store, 'young', at('2026-01-03T09:00:00.000Z'), NAMES);
  await removed(store, folder, ['old-removed']);
  const due = (before: string) => recordsDue(store, before).map(({ id }) => id);
  expect(due('2026-01-02T09:00:00.000Z')).toEqual(['old']);
  expect(due('2026-01-02T09:00:00.001Z')).toEqual(['edge', 'old']);
});
