import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  CHAIN_START,
  type ChainEntry,
  encodeEntry,
  nextEntry,
} from '../../../src/store/chain/chain-entry.ts';
import { chainLines, chainTail, writeEntry } from '../../../src/store/chain/chain-file.ts';
import { recordsFolder } from '../records-folder.ts';

const entryAfter = (head: { seq: number; hash: string }, text = 'demo'): ChainEntry =>
  nextEntry(head, {
    at: '2026-03-01T09:00:00.000Z',
    kind: 'amendment',
    id: 'demo-1',
    body: { text },
    personalSha256: null,
  });
const FIRST = entryAfter(CHAIN_START);
const lengthOf = (entry: ChainEntry): number => Buffer.byteLength(encodeEntry(entry)) + 1;

function folderWith(content: string | null): string {
  const folder = recordsFolder();
  if (content !== null) writeFileSync(join(folder, 'chain.jsonl'), content);
  return folder;
}
const linesOf = (folder: string, from?: number) =>
  [...chainLines(folder, from)].map(({ bytes, ...line }) => ({ text: bytes.toString(), ...line }));

describe('the lines of a chain', () => {
  test('are none where there is no file, and none in an empty one', () => {
    expect(linesOf(folderWith(null))).toEqual([]);
    expect(linesOf(folderWith(''))).toEqual([]);
  });

  test('carry their place, and the last one that it was cut off', () => {
    const folder = folderWith('one\n\nthree\nfo');
    expect(linesOf(folder)).toEqual([
      { text: 'one', offset: 0, whole: true },
      { text: '', offset: 4, whole: true },
      { text: 'three', offset: 5, whole: true },
      { text: 'fo', offset: 11, whole: false },
    ]);
    expect(linesOf(folder, 5).map(({ offset }) => offset)).toEqual([5, 11]);
  });

  // Files are read by blocks of 1 MiB.
  test('go over the ends of blocks', () => {
    const long = 'a'.repeat(700_000);
    const folder = folderWith(`${long}\n${long}b\nend\n`);
    expect(linesOf(folder).map(({ text, offset, whole }) => [text.length, offset, whole])).toEqual([
      [700_000, 0, true],
      [700_001, 700_001, true],
      [3, 1_400_003, true],
    ]);
  });
});

describe('the end of a chain', () => {
  test('is its start where there is nothing yet', () => {
    const start = { head: CHAIN_START, wholeBytes: 0, tornBytes: 0 };
    expect(chainTail(folderWith(null))).toEqual(start);
    expect(chainTail(folderWith(''))).toEqual(start);
    expect(chainTail(folderWith('torn'))).toEqual({ ...start, tornBytes: 4 });
  });

  test.each([0, 50_000, 70_000, 300_000, 2_000_000])(
    'is the last whole entry, though that is longer than %i bytes',
    (long) => {
      const last = entryAfter(FIRST, 'x'.repeat(long));
      const folder = folderWith(`${encodeEntry(FIRST)}\n${encodeEntry(last)}\ntorn`);
      expect(chainTail(folder)).toEqual({
        head: { seq: 2, hash: last.hash },
        wholeBytes: lengthOf(FIRST) + lengthOf(last),
        tornBytes: 4,
      });
    },
  );

  test('is one entry alone', () => {
    const whole = { head: { seq: 1, hash: FIRST.hash }, wholeBytes: lengthOf(FIRST), tornBytes: 0 };
    expect(chainTail(folderWith(`${encodeEntry(FIRST)}\n`))).toEqual(whole);
  });

  test('is not known where its last line is no entry', () => {
    expect(chainTail(folderWith(`${encodeEntry(FIRST)}\nspoilt\n`))).toEqual({
      head: null,
      wholeBytes: lengthOf(FIRST) + 7,
      tornBytes: 0,
    });
    expect(chainTail(folderWith('\n'))).toMatchObject({ head: null, wholeBytes: 1 });
  });
});

describe('an entry', () => {
  test('begins a file that only its account may read, and is appended after that', () => {
    const folder = folderWith(null);
    expect(writeEntry(folder, FIRST, chainTail(folder))).toBe(lengthOf(FIRST));
    const second = entryAfter(FIRST, 'é');
    const size = lengthOf(FIRST) + lengthOf(second);
    expect(writeEntry(folder, second, chainTail(folder))).toBe(size);
    const chain = join(folder, 'chain.jsonl');
    expect(readFileSync(chain, 'utf8')).toBe(`${encodeEntry(FIRST)}\n${encodeEntry(second)}\n`);
    expect(statSync(chain).size).toBe(size);
    expect(statSync(chain).mode & 0o777).toBe(0o600);
  });

  test('takes the place of a torn line, which is kept aside with its place in its name', () => {
    const folder = folderWith(`${encodeEntry(FIRST)}\n{"torn":"${'y'.repeat(500)}`);
    const second = entryAfter(FIRST);
    writeEntry(folder, second, chainTail(folder));
    const lines = [FIRST, second].map((one) => `${encodeEntry(one)}\n`).join('');
    expect(readFileSync(join(folder, 'chain.jsonl'), 'utf8')).toBe(lines);
    const aside = `chain.jsonl.torn-at-${lengthOf(FIRST)}`;
    expect(readFileSync(join(folder, aside), 'utf8')).toBe(`{"torn":"${'y'.repeat(500)}`);
  });
});
