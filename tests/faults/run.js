/**
 * `npm run faults`: bundles the campaign, because Node 20 runs no TypeScript, and runs it here. Its
 * workers run the same bundle. `npm run faults -- --help` lists the options.
 */
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../..', import.meta.url));
const cache = join(root, 'node_modules', '.cache', 'meniscus-faults');
const outfile = join(cache, `campaign.${process.pid}.mjs`);

/** Sources that read files beside them find them from where they stand, not from the bundle. */
const ownPlaces = {
  name: 'own-places',
  setup({ onLoad }) {
    onLoad({ filter: /\.tsx?$/ }, ({ path }) => {
      const source = readFileSync(path, 'utf8');
      const place = JSON.stringify(pathToFileURL(path).href);
      return { contents: source.replaceAll('import.meta.url', place), loader: 'ts' };
    });
  },
};

mkdirSync(cache, { recursive: true });
process.env.MENISCUS_FAULTS_PROGRAM = outfile;
process.on('exit', () => rmSync(outfile, { force: true }));
await build({
  entryPoints: [fileURLToPath(new URL('main.ts', import.meta.url))],
  outfile,
  absWorkingDir: root,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  external: ['serialport', 'johnny-five', 'firmata-io'],
  plugins: [ownPlaces],
  logLevel: 'error',
  banner: {
    js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
  },
});
await import(pathToFileURL(outfile).href);
