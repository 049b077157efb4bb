import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { sha256Of } from '../../../src/core/canonical-json.ts';
import { encodeEntry, nextEntry, parseEntry } from '../../../src/store/chain/chain-entry.ts';
import { checkAgainstChain } from '../../../src/store/verify/chain-check.ts';
import { addRepair, bodyOf, openedIn, recordsFolder } from '../records-folder.ts';

let folder = '';
const journal = (id: string): string => join(folder, id, 'journal.jsonl');
const check = (id: string) => checkAgainstChain(folder, id, journal(id));
const lines = (): string[] =>
  readFileSync(join(folder, 'chain.jsonl'), 'utf8').trimEnd().split('\n');
const write = (all: readonly string[]): void =>
  writeFileSync(join(folder, 'chain.jsonl'), `${all.join('\n')}\n`);

beforeEach(() => {
  folder = recordsFolder();
  const store = openedIn(folder);
  for (const id of ['demo-1', 'demo-2', 'demo-3']) addRepair(folder, store, id);
  store.close();
});

/** The entry with another hash of its journal, and its own hash computed anew over that. */
function forged(line: string, journalSha256: string): string {
  const entry = parseEntry(line);
  if (entry === null) throw new Error('no entry');
  const body = {
    ...(entry.body as object),
    journal: { file: 'journal.jsonl', sha256: journalSha256 },
  };
  const { at, kind, id, personalSha256, seq, previous } = entry;
  return encodeEntry(
    nextEntry({ seq: seq - 1, hash: previous }, { at, kind, id, body, personalSha256 }),
  );
}

describe('a journal held against the chain', () => {
  test('agrees where its bytes are those of its entry and every link holds', () => {
    expect(check('demo-2')).toMatchObject({ state: 'agrees', words: null, entries: [{ seq: 2 }] });
  });

  test('differs where one of its bytes was changed, and both hashes are told', () => {
    const text = readFileSync(journal('demo-2'), 'utf8').replace('[1,2,3]', '[1,2,4]');
    writeFileSync(journal('demo-2'), text);
    const { state, words } = check('demo-2');
    expect(state).toBe('differs');
    expect(words).toContain('journal at entry 2 (demo-2)');
    expect(words).toContain(bodyOf('demo-2').journal.sha256);
    expect(words).toContain(sha256Of(text));
    expect([check('demo-1').state, check('demo-3').state]).toEqual(['agrees', 'agrees']);
  });

  test('differs where its entry was changed to fit it, whether or not that entry’s hash was too', () => {
    writeFileSync(journal('demo-2'), 'other');
    const whole = lines();
    const plain = (whole[1] ?? '').replace(bodyOf('demo-2').journal.sha256, sha256Of('other'));
    write(whole.with(1, plain));
    expect(check('demo-2')).toMatchObject({
      state: 'differs',
      words: expect.stringContaining('hash of the entry'),
    });
    write(whole.with(1, forged(whole[1] ?? '', sha256Of('other'))));
    expect(check('demo-2')).toMatchObject({
      state: 'differs',
      words: expect.stringContaining('at entry 3'),
    });
  });

  test('differs where a second entry of the job says what the first does not', () => {
    writeFileSync(journal('demo-2'), 'other');
    const store = openedIn(folder);
    const journalOther = { file: 'journal.jsonl', sha256: sha256Of('other') };
    const body = bodyOf('demo-2', { journal: journalOther });
    store.append({ at: body.endedAt, kind: 'repair', id: 'demo-2', body, personal: null });
    store.close();
    expect(check('demo-2')).toMatchObject({ state: 'differs', entries: [{ seq: 2 }, { seq: 4 }] });
  });

  test('agrees after a break before its entry, which is told', () => {
    write(lines().with(0, 'spoilt'));
    expect(check('demo-2')).toMatchObject({
      state: 'agrees',
      words: expect.stringContaining('entry 1'),
    });
  });

  test('agrees before a line that a power cut left torn', () => {
    writeFileSync(join(folder, 'chain.jsonl'), `${lines().join('\n')}\n{"at":"20`);
    expect(check('demo-2')).toMatchObject({ state: 'agrees', words: null });
  });

  test('is not recorded where no entry is of its job', () => {
    const { path, id } = { path: journal('demo-1'), id: 'imported' };
    expect(checkAgainstChain(folder, id, path)).toEqual({
      state: 'not recorded',
      entries: [],
      words: null,
    });
  });
});
