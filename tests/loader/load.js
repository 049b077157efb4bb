/** Turns a TypeScript source into JavaScript for Node's own imports, in a thread of its own. */
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { transform } from 'esbuild';

/** With or without a query, under which a source is run once more. */
const OURS = /^file:[^?]*\.tsx?(\?|$)/;

export async function load(url, context, nextLoad) {
  if (!OURS.test(url) || url.includes('/node_modules/')) return nextLoad(url, context);
  const sourcefile = fileURLToPath(url);
  const { code } = await transform(await readFile(sourcefile, 'utf8'), {
    loader: sourcefile.endsWith('x') ? 'tsx' : 'ts',
    format: 'esm',
    target: 'node20.11',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    sourcefile,
    sourcemap: 'inline',
    sourcesContent: false,
  });
  return { format: 'module', source: code, shortCircuit: true };
}
