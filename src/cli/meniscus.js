#!/usr/bin/env node
/**
 * Starts the TypeScript sources. They are bundled once into node_modules/.cache and again whenever
 * a source is newer than the bundle, so that an edit needs no build and a start no compiler.
 */
import { mkdirSync, readdirSync, renameSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { setFlagsFromString } from 'node:v8';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = join(root, 'node_modules', '.cache', 'meniscus');
const bundle = join(folder, 'main.mjs');

/** Newest change below a path, ms; 0 where there is nothing. */
function newestMs(path) {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (stat === undefined) return 0;
  if (!stat.isDirectory()) return stat.mtimeMs;
  const inside = readdirSync(path).map((name) => newestMs(join(path, name)));
  return Math.max(stat.mtimeMs, ...inside);
}

async function buildBundle() {
  const { build } = await import('esbuild');
  mkdirSync(folder, { recursive: true });
  // Under names of their own first: another start may be reading the bundle.
  const fresh = join(folder, `main.${process.pid}.mjs`);
  await build({
    entryPoints: [join(root, 'src', 'cli', 'main.ts')],
    outfile: fresh,
    absWorkingDir: root,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    sourcemap: 'external',
    // Half the text to parse at every start; names stay for whoever reads a stack trace.
    minifySyntax: true,
    minifyWhitespace: true,
    logLevel: 'error',
    // Packages in the older module format ask for Node's own modules through require.
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
    footer: { js: '//# sourceMappingURL=main.mjs.map' },
  });
  renameSync(`${fresh}.map`, `${bundle}.map`);
  renameSync(fresh, bundle);
}

const sources = ['src', 'sim', 'hal', 'wiring', 'package.json', 'package-lock.json'];
const newestSourceMs = Math.max(...sources.map((name) => newestMs(join(root, name))));
if (newestMs(bundle) < newestSourceMs) await buildBundle();
// A run as fast as it can is over in seconds: compile its loop sooner than V8 would by itself.
setFlagsFromString('--interrupt-budget=20000');
process.setSourceMapsEnabled(true);
await import(bundle);
