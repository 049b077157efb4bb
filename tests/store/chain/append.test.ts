import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  type AppendDraft,
  type AppendMeans,
  appendEntry,
} from '../../../src/store/chain/append.ts';
import { encodeEntry } from '../../../src/store/chain/chain-entry.ts';
import { personalFieldsOf, writePersonal } from '../../../src/store/chain/personal-file.ts';
import { rememberedHeads } from '../../../src/store/chain/remembered-head.ts';
import { recordsFolder } from '../records-folder.ts';
import { unitIn } from '../verify/signed-records.ts';

const SALT = 'demo salt of 16 or more';
const DRAFT: AppendDraft = {
  at: '2026-03-01T09:00:00.000Z',
  kind: 'amendment',
  id: 'demo-1',
  body: { text: 'demo' },
  personal: null,
};
const MEANS: AppendMeans = { newSalt: () => SALT, known: () => null, unit: null };
const append = (
  folder: string,
  draft: Partial<AppendDraft> = {},
  means: Partial<AppendMeans> = {},
) => appendEntry(folder, { ...DRAFT, ...draft }, { ...MEANS, ...means });
const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');
const textOf = (salt: string, by: string): string => `{"fields":{"by":"${by}"},"salt":"${salt}"}`;

describe('an entry that is appended', () => {
  test('stands in the file as it was given back, each after the one before', () => {
    const folder = recordsFolder();
    const [one, two] = [append(folder), append(folder, { id: 'demo-2' })];
    const { personal: _, ...drafted } = DRAFT;
    expect(one).toMatchObject({ ...drafted, seq: 1, personalSha256: null });
    expect(two).toMatchObject({ id: 'demo-2', seq: 2, previous: one.hash });
    const lines = [one, two].map((entry) => `${encodeEntry(entry)}\n`).join('');
    expect(readFileSync(join(folder, 'chain.jsonl'), 'utf8')).toBe(lines);
    expect(existsSync(join(folder, 'chain.held'))).toBe(false);
  });

  test('commits to people whose file is there before it, and holds no name', () => {
    const folder = recordsFolder();
    append(folder);
    const entry = append(folder, { personal: { by: 'demo person' } });
    expect(entry.personalSha256).toBe(sha256(textOf(SALT, 'demo person')));
    expect(readFileSync(join(folder, 'personal', '2.json'), 'utf8')).toBe(
      `${textOf(SALT, 'demo person')}\n`,
    );
    expect(readFileSync(join(folder, 'chain.jsonl'), 'utf8')).not.toContain('demo person');
    expect(personalFieldsOf(folder, entry)).toEqual({ by: 'demo person' });
  });

  test('of a repair commits to the file that its job wrote, whatever is handed in', () => {
    const folder = recordsFolder();
    mkdirSync(join(folder, 'demo-1'));
    const path = join(folder, 'demo-1', 'personal.json');
    writePersonal(path, { salt: 'another salt of 16', fields: { by: 'of the job' } }, 'new');
    const entry = append(folder, { kind: 'repair', personal: { by: 'other' } });
    expect(entry.personalSha256).toBe(sha256(textOf('another salt of 16', 'of the job')));
    expect(readFileSync(path, 'utf8')).toBe(`${textOf('another salt of 16', 'of the job')}\n`);
  });

  test('replaces people that an append left behind which was cut off', () => {
    const folder = recordsFolder();
    mkdirSync(join(folder, 'personal'));
    const path = join(folder, 'personal', '1.json');
    writePersonal(path, { salt: 'another salt of 16', fields: { by: 'left' } }, 'new');
    const entry = append(folder, { personal: { by: 'now' } });
    expect(readFileSync(path, 'utf8')).toBe(`${textOf(SALT, 'now')}\n`);
    expect(entry.personalSha256).toBe(sha256(textOf(SALT, 'now')));
  });

  test('after a spoilt last line takes its number, and vouches for the line as it stands', () => {
    const folder = recordsFolder();
    append(folder);
    appendFileSync(join(folder, 'chain.jsonl'), 'spoilt\n');
    const entry = append(folder);
    expect(entry).toMatchObject({ seq: 3, previous: sha256('spoilt') });
  });

  test('after a spoilt last line goes on from the entry that an index of it knows', () => {
    const folder = recordsFolder();
    append(folder);
    appendFileSync(join(folder, 'chain.jsonl'), 'spoilt\n');
    const hash = 'c'.repeat(64);
    expect(append(folder, {}, { known: () => ({ seq: 2, hash }) })).toMatchObject({
      seq: 3,
      previous: hash,
    });
  });

  test('an index that knows another number of lines is not believed', () => {
    const folder = recordsFolder();
    append(folder);
    appendFileSync(join(folder, 'chain.jsonl'), 'spoilt\ntorn');
    const known = { seq: 3, hash: 'c'.repeat(64) };
    expect(append(folder, {}, { known: () => known })).toMatchObject({
      seq: 3,
      previous: sha256('spoilt'),
    });
  });

  test('is signed and remembered by the unit that has a key', () => {
    const [folder, home] = [recordsFolder(), recordsFolder()];
    const unit = unitIn(home);
    const entries = [append(folder, {}, { unit }), append(folder, {}, { unit })];
    expect(entries.map(({ signed }) => signed?.by)).toEqual([unit.signer.by, unit.signer.by]);
    const { seq, hash } = entries[1] ?? { seq: 0, hash: '' };
    expect(rememberedHeads(home, folder)).toEqual([{ chain: expect.any(String), seq, hash }]);
  });
});
