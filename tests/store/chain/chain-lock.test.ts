import { once } from 'node:events';
import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { withChainLock } from '../../../src/store/chain/chain-lock.ts';
import { bundled, startNode } from '../../emulated/bundled.ts';
import { recordsFolder } from '../records-folder.ts';

let program = '';
beforeAll(async () => {
  program = await bundled(new URL('holder.ts', import.meta.url), 'holder');
});

async function heldBy(folder: string, ms: number) {
  const child = startNode(program, [folder, String(ms)]);
  let said = '';
  child.stdout?.on('data', (data) => {
    said += data;
  });
  await once(child.stdout as NodeJS.ReadableStream, 'data');
  return { child, said: () => said };
}

describe('the lock of a folder of records', () => {
  test('lets one through, gives back what the action gave, and leaves nothing behind', () => {
    const folder = recordsFolder();
    expect(withChainLock(folder, () => readdirSync(folder))).toEqual(['chain.held']);
    expect(() =>
      withChainLock(folder, () => {
        throw new Error('demo');
      }),
    ).toThrow('demo');
    expect(readdirSync(folder)).toEqual([]);
  });

  test('makes another program wait until it is given back', async () => {
    const folder = recordsFolder();
    const { child } = await heldBy(folder, 400);
    const closed = once(child, 'close');
    // The other program makes its file as the last thing that it does with the lock.
    expect(withChainLock(folder, () => existsSync(join(folder, 'others')))).toBe(true);
    await closed;
    expect(readdirSync(folder)).toEqual(['others']);
  });

  test('is taken back from a program that was killed with it', async () => {
    const folder = recordsFolder();
    const { child, said } = await heldBy(folder, 60_000);
    const closed = once(child, 'close');
    child.kill('SIGKILL');
    await closed;
    expect(said()).toBe('held\n');
    expect(readdirSync(join(folder, 'chain.held'))).toHaveLength(1);
    expect(withChainLock(folder, () => 'through')).toBe('through');
    expect(readdirSync(folder)).toEqual([]);
  });

  test('of another machine is never taken, and the wait ends with what to do', () => {
    const folder = recordsFolder();
    const lock = join(folder, 'chain.held');
    mkdirSync(lock);
    // A process number that no system gives.
    writeFileSync(join(lock, 'other-boot-room-999999999-1-demo'), '');
    expect(() => withChainLock(folder, () => 'through', 200)).toThrow(
      /chain\.held has been held by another program \(process 999999999\).*delete this folder/,
    );
    expect(readdirSync(folder)).toEqual(['chain.held']);
    expect(readdirSync(lock)).toEqual(['other-boot-room-999999999-1-demo']);
  });
});
