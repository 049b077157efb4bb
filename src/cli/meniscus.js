#!/usr/bin/env node
/**
 * Starts the TypeScript sources. They are bundled once into node_modules/.cache and again whenever
 * a source is newer than the bundle, so that an edit needs no build and a start no compiler.
 */

import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import module from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const cache = join(root, 'node_modules', '.cache', 'meniscus');
const DAY_MS = 86_400_000;

/** Newest change below a path, ms; 0 where there is nothing. */
function newestMs(path) {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (stat === undefined) return 0;
  if (!stat.isDirectory()) return stat.mtimeMs;
  const inside = readdirSync(path).map((name) => newestMs(join(path, name)));
  return Math.max(stat.mtimeMs, ...inside);
}

async function buildBundle(folder) {
  const { build } = await import('esbuild');
  // Under a name of its own first: another start may be building too.
  const fresh = join(cache, `fresh.${process.pid}`);
  mkdirSync(fresh, { recursive: true });
  await build({
    entryPoints: [join(root, 'src', 'cli', 'main.ts')],
    outdir: fresh,
    outExtension: { '.js': '.mjs' },
    absWorkingDir: root,
    bundle: true,
    // What only a real or an emulated board needs is loaded only for one.
    splitting: true,
    external: [
      'serialport',
      'johnny-five',
      'firmata-io',
      'pdfkit',
      'svg-to-pdfkit',
      'better-sqlite3',
    ],
    platform: 'node',
    format: 'esm',
    target: 'node20',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    sourcemap: 'external',
    // Half the text to parse at every start; names stay for readers of a stack trace.
    minifySyntax: true,
    minifyWhitespace: true,
    logLevel: 'error',
    // Packages in the older module format ask for Node's own modules through require.
    banner: {
      js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
    },
  });
  // When another start was quicker, its bundle is as good.
  if (existsSync(folder)) rmSync(fresh, { recursive: true });
  else renameSync(fresh, folder);
}

/** A program that started from an older bundle may still load parts of it: only old ones go. */
function dropOldBundles(folder) {
  for (const name of readdirSync(cache)) {
    const path = join(cache, name);
    if (path !== folder && statSync(path).mtimeMs < Date.now() - DAY_MS) {
      rmSync(path, { recursive: true, force: true });
    }
  }
}

const sources = ['src', 'sim', 'hal', 'wiring', 'package.json', 'package-lock.json'];
const newestSourceMs = Math.max(...sources.map((name) => newestMs(join(root, name))));
const bundles = join(cache, String(Math.round(newestSourceMs)));
if (!existsSync(bundles)) {
  await buildBundle(bundles);
  dropOldBundles(bundles);
}
process.setSourceMapsEnabled(true);
// Of Node 22 on: what was compiled at an earlier start is not compiled again.
module.enableCompileCache?.(join(cache, 'compiled'));
await import(join(bundles, 'main.mjs'));
