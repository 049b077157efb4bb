import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { SAFE } from '../../src/core/frame.ts';
import { createJournal } from '../../src/journal/journal.ts';
import { readJournal } from '../../src/journal/read-journal.ts';
import { HEALTHY_FRAME } from '../frames.ts';
import {
  DONE,
  fail,
  headerOf,
  memoryFile,
  shortJournal,
  writeShortJob,
} from '../report/journal-data.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'journal-test-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('the journal on disk', () => {
  test('reads back as it was written, with an intact checksum and no remarks', () => {
    const path = join(folder, 'journal.jsonl');
    const journal = createJournal({ path, header: headerOf(), onError: fail });
    writeShortJob(journal, 500);
    journal.close(DONE);
    const read = readJournal(readFileSync(path, 'utf8'), path);
    expect(read).toMatchObject({
      ok: true,
      value: { header: headerOf(), end: DONE, intact: true, torn: false, remarks: [] },
    });
    expect(read.ok && [read.value.ticks.length, read.value.events.length]).toEqual([500, 50]);
  });

  test('is never written over an existing file', () => {
    const path = join(folder, 'journal.jsonl');
    writeFileSync(path, 'an older record');
    expect(() => createJournal({ path, header: headerOf(), onError: fail })).toThrow('EEXIST');
    expect(readFileSync(path, 'utf8')).toBe('an older record');
  });

  test('has the header on disk before the first tick', () => {
    const path = join(folder, 'journal.jsonl');
    const journal = createJournal({ path, header: headerOf(), onError: fail });
    expect(readFileSync(path, 'utf8')).toBe(`${JSON.stringify(headerOf())}\n`);
    journal.close(DONE);
  });
});

describe('the journal', () => {
  test('gives the same bytes for the same inputs', () => {
    expect(shortJournal()).toBe(shortJournal());
    expect(shortJournal(headerOf({ job: { a: 1 } }))).not.toBe(shortJournal());
  });

  test('writes an event and all before it at once, and ticks every half second', () => {
    const { file, calls, text } = memoryFile();
    const journal = createJournal({
      path: '',
      header: headerOf(),
      onError: fail,
      open: () => file,
    });
    writeShortJob(journal, 1);
    const afterEvent = text();
    expect(afterEvent).toContain('"phase":"self-test"');
    expect(afterEvent.split('\n')[1]).toMatch(/^\[0,/);
    journal.snapshot({ ...readFirstSnapshot(), timeS: 1 });
    expect(text()).toBe(afterEvent);
    for (let frame = 1; frame < 40; frame++) {
      journal.tick({ ...HEALTHY_FRAME, sequence: frame, timeS: frame * 0.05 }, [], SAFE);
      const written = text()
        .split('\n')
        .filter((line) => line.startsWith('[')).length;
      // A frame each 0.05 s: fewer than ten are held back.
      expect(frame + 1 - written).toBeLessThan(10);
    }
    expect(calls.syncSoon).toBe(4);
    journal.close(DONE);
  });

  test('is not held up by a slow disk, and tells an error of the disk that comes later', () => {
    const { file } = memoryFile();
    const asked: ((error: unknown) => void)[] = [];
    const errors: unknown[] = [];
    const journal = createJournal({
      path: '',
      header: headerOf(),
      onError: (error) => errors.push(error),
      open: () => ({ ...file, syncSoon: (done) => asked.push(done) }),
    });
    writeShortJob(journal, 100);
    expect(asked).toHaveLength(1);
    asked[0]?.(new Error('EIO'));
    writeShortJob(journal, 100);
    journal.close(DONE);
    expect(errors.map(String)).toEqual(['Error: EIO']);
    expect(asked).toHaveLength(1);
  });

  test('is synced to the disk by batch events and by its close', () => {
    const { file, calls } = memoryFile();
    const journal = createJournal({
      path: '',
      header: headerOf(),
      onError: fail,
      open: () => file,
    });
    const opened = calls.sync;
    journal.event({ kind: 'answer', phase: 'ask-clear', answer: 'yes', timeS: 1 });
    expect(calls.sync).toBe(opened);
    journal.event({ kind: 'batch', from: 'running', to: 'holding', why: 'demo', timeS: 1 });
    expect(calls.sync).toBe(opened + 1);
    journal.close(DONE);
    expect(calls.sync).toBe(opened + 2);
  });

  test('survives a file that takes a few bytes at a time', () => {
    const whole = memoryFile();
    const crumbs = { ...whole.file, write: (b: Uint8Array) => whole.file.write(b.subarray(0, 7)) };
    const journal = createJournal({
      path: '',
      header: headerOf(),
      onError: fail,
      open: () => crumbs,
    });
    writeShortJob(journal, 30);
    journal.close(DONE);
    expect(whole.text()).toBe(shortJournal());
  });

  test('writes nothing more once it is closed', () => {
    const { file, calls, text } = memoryFile();
    const journal = createJournal({
      path: '',
      header: headerOf(),
      onError: fail,
      open: () => file,
    });
    journal.close(DONE);
    const closed = text();
    writeShortJob(journal, 20);
    journal.close({ ...DONE, reason: 'fault' });
    expect(text()).toBe(closed);
    expect(calls.close).toBe(1);
  });
});

describe('a journal on a full disk', () => {
  test('tells it once, throws nothing, and leaves what was written readable', () => {
    const complete = shortJournal();
    // A step that is no divisor of a line's length, so that every kind of cut is met.
    for (let room = complete.indexOf('\n') + 1; room < complete.length; room += 41) {
      const { file, calls, text } = memoryFile(room);
      const errors: unknown[] = [];
      const onError = (error: unknown) => errors.push(error);
      const journal = createJournal({ path: '', header: headerOf(), onError, open: () => file });
      writeShortJob(journal, 30);
      journal.close(DONE);
      expect(errors.map(String)).toEqual(['Error: ENOSPC: no space left on device']);
      expect(calls).toMatchObject({ refused: 1, close: 1 });
      expect(text()).toBe(complete.slice(0, room));
      const read = readJournal(text(), 'full.jsonl');
      expect(read).toMatchObject({ ok: true, value: { end: { reason: 'interrupted' } } });
    }
  });

  test('tells a failing sync and a failing close as well', () => {
    for (const broken of ['sync', 'close'] as const) {
      const { file } = memoryFile();
      const errors: unknown[] = [];
      let works = true;
      const journal = createJournal({
        path: '',
        header: headerOf(),
        onError: (error) => errors.push(error),
        open: () => ({
          ...file,
          [broken]: () => (works ? undefined : fail(new Error('EIO'))),
        }),
      });
      works = false;
      writeShortJob(journal, 5);
      journal.close(DONE);
      expect(errors.map(String)).toEqual(['Error: EIO']);
    }
  });

  test('is not begun where its header does not get onto the disk: no job starts without a record', () => {
    const headerBytes = shortJournal().indexOf('\n') + 1;
    const syncless = memoryFile();
    for (const [opened, calls] of [
      ...[0, 1, headerBytes - 1].map((room) => {
        const { file, calls } = memoryFile(room);
        return [file, calls] as const;
      }),
      [{ ...syncless.file, sync: () => fail(new Error('EIO')) }, syncless.calls] as const,
    ]) {
      const told: unknown[] = [];
      const begin = () =>
        createJournal({
          path: '',
          header: headerOf(),
          onError: (error) => told.push(error),
          open: () => opened,
        });
      expect(begin).toThrow(/ENOSPC|EIO/);
      expect([told, calls.close]).toEqual([[], 1]);
    }
  });

  test('or with a line that cannot be written gets no end, so that a gap cannot pass for a whole record', () => {
    const { file, text } = memoryFile();
    const errors: unknown[] = [];
    const onError = (error: unknown) => errors.push(error);
    const journal = createJournal({ path: '', header: headerOf(), onError, open: () => file });
    writeShortJob(journal, 5);
    const circular: { self?: unknown } = {};
    circular.self = circular;
    journal.event({ kind: 'batch', from: 'idle', to: 'running', why: circular, timeS: 1 } as never);
    writeShortJob(journal, 5);
    journal.close(DONE);
    expect(errors).toHaveLength(1);
    const read = readJournal(text(), 'gap.jsonl');
    expect(read).toMatchObject({
      ok: true,
      value: { footer: null, end: { reason: 'interrupted' } },
    });
  });
});

function readFirstSnapshot() {
  const read = readJournal(shortJournal(), 'short.jsonl');
  if (!read.ok) throw new Error('unreadable');
  return read.value.snapshots[0]!;
}
