/** Bundles a TypeScript entry for plain node and starts it as a process of its own. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/** Below node_modules, so that packages with native parts are found from it. */
const CACHE = fileURLToPath(new URL('../../node_modules/.cache/meniscus-tests', import.meta.url));

export async function bundled(entry: URL, name: string): Promise<string> {
  mkdirSync(CACHE, { recursive: true });
  const outfile = join(CACHE, `${name}.${process.pid}.mjs`);
  await build({
    entryPoints: [fileURLToPath(entry)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    external: ['serialport', 'johnny-five', 'firmata-io'],
    logLevel: 'error',
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
  });
  return outfile;
}

export const startNode = (file: string, args: readonly string[]): ChildProcess =>
  spawn(process.execPath, [file, ...args], { stdio: ['ignore', 'pipe', 'inherit'] });
