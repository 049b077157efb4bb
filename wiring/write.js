#!/usr/bin/env node
/** Writes the drawings, the parts list and the checklist again: `node wiring/write.js`. */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = (name) => fileURLToPath(new URL(name, import.meta.url));

const { outputFiles } = await build({
  entryPoints: [here('drawing/files.ts')],
  bundle: true,
  platform: 'node',
  format: 'esm',
  write: false,
});
const source = Buffer.from(outputFiles[0].contents).toString('base64');
const { wiringFiles } = await import(`data:text/javascript;base64,${source}`);
for (const [name, content] of Object.entries(wiringFiles())) writeFileSync(here(name), content);
