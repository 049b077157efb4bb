import { once } from 'node:events';
import { beforeAll, describe, expect, test } from 'vitest';
import { verifyRecords } from '../../../src/store/verify/verify.ts';
import { bundled, startNode } from '../../emulated/bundled.ts';
import { opened, recordsFolder } from '../records-folder.ts';

let program = '';
beforeAll(async () => {
  program = await bundled(new URL('appender.ts', import.meta.url), 'appender');
});

/** Entries that the program said were on disk when it ended. */
async function appended(
  folder: string,
  name: string,
  count: number,
  onSaid: (said: number, kill: () => void) => void = () => undefined,
): Promise<readonly number[]> {
  const child = startNode(program, [folder, name, String(count)]);
  let out = '';
  child.stdout?.on('data', (data) => {
    out += data;
    onSaid(out.split('\n').length - 1, () => child.kill('SIGKILL'));
  });
  await once(child, 'close');
  const whole = out.slice(0, out.lastIndexOf('\n') + 1);
  return whole.split('\n').filter(Boolean).map(Number);
}

const verified = (folder: string) => verifyRecords(folder, () => undefined);

describe('programs that write to one folder', () => {
  test('at the same time make one chain, in which no entry is lost or doubled', async () => {
    const folder = recordsFolder();
    const said = await Promise.all(['a', 'b'].map((name) => appended(folder, name, 40)));
    expect(said.flat().toSorted((a, b) => a - b)).toEqual(
      Array.from({ length: 80 }, (_, n) => n + 1),
    );
    expect(verified(folder)).toMatchObject({ ok: true, entries: 80, personal: { kept: 80 } });
  });

  test('and are killed leave every entry that they said was there', async () => {
    const folder = recordsFolder();
    const said = [];
    for (const after of [1, 4, 9]) {
      said.push(
        ...(await appended(folder, `killed-${after}`, 1000, (count, kill) => {
          if (count >= after) kill();
        })),
      );
    }
    expect(said.length).toBeGreaterThanOrEqual(14);
    const store = opened(folder);
    store.append({
      at: '2026-03-01T09:00:00.000Z',
      kind: 'care',
      id: 'after',
      body: null,
      personal: null,
    });
    const seqs = store.entries().map(({ seq }) => seq);
    expect(seqs).toEqual(expect.arrayContaining(said));
    expect(verified(folder)).toMatchObject({ ok: true, entries: seqs.length });
  });
});
