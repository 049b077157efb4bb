import { copyFileSync, readdirSync, readFileSync, rmSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type AppendDraft, appendEntry } from '../../../src/store/chain/append.ts';
import { verifyRecords } from '../../../src/store/verify/verify.ts';
import { chainLinks } from '../../../src/store/verify/verify-chain.ts';
import { opened, recordsFolder } from '../records-folder.ts';

const draft = (id: string): AppendDraft => ({
  at: '2026-03-01T09:00:00.000Z',
  kind: 'care',
  id,
  body: { what: 'demo' },
  personal: null,
});
const append = (folder: string, id: string) =>
  appendEntry(folder, draft(id), { newSalt: () => 'demo salt', known: () => null, unit: null });

const idsIn = (folder: string): readonly (string | undefined)[] =>
  [...chainLinks(folder)].map(({ entry, finding }) => (finding === null ? entry?.id : 'broken'));

test('a chain cut at any byte of its last entry loses that entry alone, and goes on', () => {
  const folder = recordsFolder();
  for (const id of ['demo-1', 'demo-2', 'demo-3']) append(folder, id);
  const chain = join(folder, 'chain.jsonl');
  const bytes = readFileSync(chain);
  const lastAt = bytes.lastIndexOf('\n', bytes.length - 2) + 1;
  copyFileSync(chain, join(folder, 'whole'));
  expect(bytes.length - lastAt).toBeGreaterThan(200);
  for (let length = lastAt; length < bytes.length; length++) {
    copyFileSync(join(folder, 'whole'), chain);
    truncateSync(chain, length);
    append(folder, 'demo-4');
    expect(idsIn(folder), `cut at byte ${length}`).toEqual(['demo-1', 'demo-2', 'demo-4']);
    // What was cut is kept aside, byte for byte.
    const aside = readdirSync(folder).filter((name) => name.startsWith('chain.jsonl.torn-at-'));
    const kept = aside.map((name) => readFileSync(join(folder, name)));
    expect(Buffer.concat(kept)).toEqual(bytes.subarray(lastAt, length));
    for (const name of aside) rmSync(join(folder, name));
  }
  expect(
    opened(folder)
      .entries()
      .map(({ id }) => id),
  ).toEqual(['demo-1', 'demo-2', 'demo-4']);
  expect(verifyRecords(folder, () => undefined)).toMatchObject({ ok: true, entries: 3 });
});
