import { readdirSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { CHAIN_START, type ChainEntry, nextEntry } from '../../../src/store/chain/chain-entry.ts';
import { rememberedHeads, rememberHead } from '../../../src/store/chain/remembered-head.ts';
import { recordsFolder } from '../records-folder.ts';

const entryAfter = (head: { seq: number; hash: string }, id = 'demo'): ChainEntry =>
  nextEntry(head, {
    at: '2026-03-01T09:00:00.000Z',
    kind: 'care',
    id,
    body: null,
    personalSha256: null,
  });

/** Appends entries to one chain and remembers each. */
function remembered(unit: string, folder: string, count: number, id = 'demo'): ChainEntry {
  let head: ChainEntry | typeof CHAIN_START = CHAIN_START;
  for (let n = 0; n < count; n++) {
    const entry: ChainEntry = entryAfter(head, id);
    rememberHead(unit, folder, head, entry);
    head = entry;
  }
  return head as ChainEntry;
}

test('a unit remembers nothing of a folder that it never wrote to', () => {
  expect(rememberedHeads(recordsFolder(), recordsFolder())).toEqual([]);
});

test('of one chain it remembers the last entry alone, in a file of its account', () => {
  const [unit, folder] = [recordsFolder(), recordsFolder()];
  const { seq, hash } = remembered(unit, folder, 3);
  expect(rememberedHeads(unit, folder)).toEqual([
    { chain: expect.stringMatching(/^[0-9a-f]{16}$/), seq, hash },
  ]);
  const [file = '', ...more] = readdirSync(join(unit, 'heads'));
  expect(more).toEqual([]);
  expect(statSync(join(unit, 'heads', file)).mode & 0o777).toBe(0o600);
});

test('folders are told apart, and a link to a folder is that folder', () => {
  const [unit, one, two] = [recordsFolder(), recordsFolder(), recordsFolder()];
  const last = remembered(unit, one, 2);
  remembered(unit, two, 1);
  const link = join(recordsFolder(), 'link');
  symlinkSync(one, link);
  expect(rememberedHeads(unit, link)).toMatchObject([{ seq: 2, hash: last.hash }]);
  expect(rememberedHeads(unit, two)).toMatchObject([{ seq: 1 }]);
});

test('a chain that was begun anew is remembered beside the old one', () => {
  const [unit, folder] = [recordsFolder(), recordsFolder()];
  remembered(unit, folder, 2, 'old');
  remembered(unit, folder, 1, 'new');
  const [old, young] = rememberedHeads(unit, folder);
  expect([old?.seq, young?.seq]).toEqual([2, 1]);
  expect(young?.chain).not.toBe(old?.chain);
});

test('an entry on another head than the remembered one leaves that one remembered', () => {
  const [unit, folder] = [recordsFolder(), recordsFolder()];
  const last = remembered(unit, folder, 2);
  const other = { seq: 2, hash: 'd'.repeat(64) };
  rememberHead(unit, folder, other, entryAfter(other));
  const heads = rememberedHeads(unit, folder);
  expect(heads.map(({ seq }) => seq)).toEqual([2, 3]);
  expect(heads[0]?.hash).toBe(last.hash);
  expect(heads[1]?.chain).toBe(heads[0]?.chain);
});

test('no more than twenty are remembered, the youngest', () => {
  const [unit, folder] = [recordsFolder(), recordsFolder()];
  for (let n = 0; n < 25; n++) remembered(unit, folder, 1, `demo-${n}`);
  const heads = rememberedHeads(unit, folder);
  expect(heads).toHaveLength(20);
  expect(heads.at(-1)?.hash).toBe(entryAfter(CHAIN_START, 'demo-24').hash);
  expect(heads[0]?.hash).toBe(entryAfter(CHAIN_START, 'demo-5').hash);
});

test('a spoilt memory is none', () => {
  const [unit, folder] = [recordsFolder(), recordsFolder()];
  remembered(unit, folder, 1);
  const [file = ''] = readdirSync(join(unit, 'heads'));
  writeFileSync(
    join(unit, 'heads', file),
    '{"folder":"x","heads":[{"chain":"a","seq":1,"hash":"short"}]}',
  );
  expect(rememberedHeads(unit, folder)).toEqual([]);
});
