/**
 * `npm run fuzz:firmware`: bundles `main.ts`, because Node 20 runs no TypeScript, and runs it.
 */
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../..', import.meta.url));
const cache = join(root, 'node_modules', '.cache', 'meniscus-fuzz');
const outfile = join(cache, `main.${process.pid}.mjs`);

mkdirSync(cache, { recursive: true });
try {
  await build({
    entryPoints: [fileURLToPath(new URL('main.ts', import.meta.url))],
    outfile,
    absWorkingDir: root,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'error',
  });
  const { run } = await import(pathToFileURL(outfile).href);
  process.exitCode = run(root, process.argv.slice(2));
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 2;
} finally {
  rmSync(outfile, { force: true });
}
