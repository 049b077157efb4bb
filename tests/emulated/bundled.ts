/** Bundles a TypeScript entry for plain node and starts it as a process of its own. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/** Below node_modules, so that packages with native parts are found from it. */
const CACHE = fileURLToPath(new URL('../../node_modules/.cache/meniscus-tests', import.meta.url));

const made = new Map<string, Promise<string>>();

/** Once a process, however often it is asked for; gone when the process ends. */
export function bundled(entry: URL, name: string): Promise<string> {
  const known = made.get(name);
  if (known !== undefined) return known;
  const fresh = bundle(entry, join(CACHE, `${name}.${process.pid}.mjs`));
  made.set(name, fresh);
  return fresh;
}

async function bundle(entry: URL, outfile: string): Promise<string> {
  mkdirSync(CACHE, { recursive: true });
  process.once('exit', () => rmSync(outfile, { force: true }));
  await build({
    entryPoints: [fileURLToPath(entry)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    external: ['serialport', 'johnny-five', 'firmata-io', 'better-sqlite3'],
    logLevel: 'error',
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
  });
  return outfile;
}

export const startNode = (file: string, args: readonly string[]): ChildProcess =>
  spawn(process.execPath, [file, ...args], { stdio: ['ignore', 'pipe', 'inherit'] });
