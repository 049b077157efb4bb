/** Runs the program as a person would, as a process of its own, in a folder of its own. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';

export const PROGRAM = fileURLToPath(new URL('../../src/cli/meniscus.js', import.meta.url));

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** A folder that is gone after the test file. */
export function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'meniscus-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export function writeJson(folder: string, name: string, value: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof value === 'string' ? value : JSON.stringify(value));
  return path;
}

/** `onOutput` sees all that was printed so far and may send a signal. */
export function runProgram(
  args: readonly string[],
  cwd: string,
  onOutput?: (out: string, kill: (signal: NodeJS.Signals) => void) => void,
  env: Readonly<Record<string, string>> = {},
): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [PROGRAM, ...args], {
      cwd,
      env: { ...process.env, ...env },
    });
    let out = '';
    let err = '';
    child.stdout.on('data', (data) => {
      out += data;
      onOutput?.(out, (signal) => child.kill(signal));
    });
    child.stderr.on('data', (data) => {
      err += data;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
  });
}
