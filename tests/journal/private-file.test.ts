import {
  chmodSync,
  closeSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import {
  closeToOthers,
  makePrivateFolder,
  openPrivate,
  writePrivate,
} from '../../src/journal/private-file.ts';
import { closeRecords } from '../../src/store/close-records.ts';
import { addRepair, opened, recordsFolder } from '../store/records-folder.ts';

const modeOf = (path: string): string => (statSync(path).mode & 0o777).toString(8);
let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'meniscus-modes-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Modes are not enforced on Windows. */
const onModes = test.skipIf(process.platform === 'win32');

describe('what is made for records', () => {
  onModes.each(['w', 'w+', 'r+'] as const)(
    'is closed to others though it was open (%s)',
    (flags) => {
      const path = join(folder, 'file');
      writeFileSync(path, 'old');
      chmodSync(path, 0o666);
      closeSync(openPrivate(path, flags));
      expect(modeOf(path)).toBe('600');
    },
  );

  onModes('is 0600 and 0700 under any umask, and so are the folders above it', () => {
    const worker = process.umask;
    for (const umask of [0o000, 0o022, 0o077, 0o277]) {
      const before = worker(umask);
      const deep = join(folder, umask.toString(8), 'a', 'b');
      try {
        makePrivateFolder(deep);
        writePrivate(join(deep, 'file'), 'text', 'wx');
      } finally {
        worker(before);
      }
      const made = [deep, join(deep, '..'), join(deep, '..', '..')].map(modeOf);
      expect([...made, modeOf(join(deep, 'file'))]).toEqual(['700', '700', '700', '600']);
    }
  });

  onModes('leaves a folder that was there as it was, and follows no link', () => {
    chmodSync(folder, 0o755);
    makePrivateFolder(folder);
    expect(modeOf(folder)).toBe('755');
    const target = join(folder, 'target');
    writeFileSync(target, '');
    chmodSync(target, 0o644);
    symlinkSync(target, join(folder, 'link'));
    closeToOthers(join(folder, 'link'));
    expect(modeOf(target)).toBe('644');
  });

  test('leaves nothing half written under a new name', () => {
    const path = join(folder, 'file');
    const bad = { length: 4 } as unknown as Uint8Array;
    expect(() => writePrivate(path, bad, 'wx')).toThrow();
    expect(existsSync(path)).toBe(false);
    writePrivate(path, 'text', 'wx');
    expect(() => writePrivate(path, 'other', 'wx')).toThrow(/EEXIST/);
    expect(readFileSync(path, 'utf8')).toBe('text');
  });
});

describe('a folder of records', () => {
  const NAMES = { technician: 'demo technician' };
  const opensUp = (path: string): void =>
    chmodSync(path, statSync(path).isDirectory() ? 0o755 : 0o644);

  onModes('holds nothing that others may read', () => {
    const records = join(recordsFolder(), 'records');
    const store = opened(records);
    store.append({
      at: '2026-03-01T09:00:00.000Z',
      kind: 'care',
      id: 'care-1',
      body: {},
      personal: { by: 'demo person' },
    });
    expect([records, join(records, 'personal')].map(modeOf)).toEqual(['700', '700']);
    for (const name of ['chain.jsonl', 'meniscus.db', 'meniscus.db-wal', 'personal/1.json']) {
      expect(modeOf(join(records, name)), name).toBe('600');
    }
  });

  onModes('of an older program is closed by whoever opens it, also to read', () => {
    const records = recordsFolder();
    const store = opened(records);
    addRepair(records, store, 'demo-1', {}, NAMES);
    store.close();
    const paths = [
      records,
      ...[
        'chain.jsonl',
        'meniscus.db',
        'demo-1',
        'demo-1/journal.jsonl',
        'demo-1/personal.json',
      ].map((name) => join(records, name)),
      join(records, 'demo-1', 'photo-before.jpg'),
      join(records, 'table.csv'),
    ];
    for (const path of paths.slice(-2)) writeFileSync(path, 'demo');
    for (const path of paths) opensUp(path);
    opened(records, { readOnly: true });
    expect(paths.map(modeOf)).toEqual(
      paths.map((path) => (statSync(path).isDirectory() ? '700' : '600')),
    );
  });

  onModes(
    'in which other folders lie is left open itself, and so is what is not of the records',
    () => {
      const records = recordsFolder();
      const store = opened(records);
      addRepair(records, store, 'demo-1', {}, NAMES);
      store.close();
      const other = join(records, 'other');
      mkdirSync(other);
      const shared = [records, other, join(records, 'demo-1'), join(records, 'chain.jsonl')];
      for (const path of shared) opensUp(path);
      closeRecords(records);
      expect(shared.map(modeOf)).toEqual(['755', '755', '700', '600']);
    },
  );
});
