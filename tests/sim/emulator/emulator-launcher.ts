/** Starts the emulator's process, waits until its line is there, and talks to it. */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { bundled } from '../../emulated/bundled.ts';
import type { ProcessArguments } from './emulator-process.ts';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
export const IMAGE_PATH = here('../../../hal/firmware/image/meniscus.hex');

export interface Said {
  readonly kind: string;
  readonly [fact: string]: unknown;
}

export interface RunningEmulator {
  readonly link: string;
  readonly said: readonly Said[];
  /** The first line of this kind from now on. */
  readonly next: (kind: string) => Promise<Said>;
  readonly command: (line: string) => void;
  /** Stops it and gives its last words. */
  readonly stop: () => Promise<Said>;
}

const LINK_PATIENCE_MS = 10_000;

export async function startEmulator(
  options: Omit<ProcessArguments, 'link' | 'imagePath'>,
): Promise<RunningEmulator> {
  const folder = mkdtempSync(join(tmpdir(), 'meniscus-emulator-'));
  const link = join(folder, 'board');
  const entry = await bundled(new URL('emulator-process.ts', import.meta.url), 'emulator');
  const all = { ...options, link, imagePath: IMAGE_PATH } satisfies ProcessArguments;
  const child = spawn(process.execPath, [entry, JSON.stringify(all)], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const said: Said[] = [];
  const waiting = new Set<(line: Said) => void>();
  createInterface({ input: child.stdout }).on('line', (text) => {
    const line: Said = JSON.parse(text);
    said.push(line);
    for (const take of [...waiting]) take(line);
  });
  const next = (kind: string): Promise<Said> =>
    new Promise((resolve, reject) => {
      const end = (): void => reject(new Error(`the emulator ended before it said ${kind}`));
      const take = (line: Said): void => {
        if (line.kind !== kind) return;
        waiting.delete(take);
        child.off('close', end);
        resolve(line);
      };
      waiting.add(take);
      child.once('close', end);
    });
  await linkIsThere(link, child);
  return {
    link,
    said,
    next,
    command: (line) => child.stdin.write(`${line}\n`),
    stop: async () => {
      const gone = new Promise((resolve) => child.once('close', resolve));
      const end = next('end');
      child.stdin.write('stop\n');
      const words = await end;
      await gone;
      rmSync(folder, { recursive: true, force: true });
      return words;
    },
  };
}

async function linkIsThere(link: string, child: ChildProcess): Promise<void> {
  const giveUpMs = performance.now() + LINK_PATIENCE_MS;
  while (!existsSync(link)) {
    if (child.exitCode !== null) throw new Error('the emulator did not start');
    if (performance.now() > giveUpMs) throw new Error(`no line at ${link}; is socat installed?`);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}
