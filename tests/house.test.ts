import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));

test('the lock file names no place from which packages were fetched', () => {
  expect(readFileSync(`${root}package-lock.json`, 'utf8')).not.toContain('"resolved"');
});

/** Of what is kept: jobs and assessments that somebody tried out may lie beside it. */
const isRepository = existsSync(`${root}.git`);
test.skipIf(!isRepository)('the top level holds what it is meant to hold and nothing else', () => {
  const meant = [
    'README.md',
    'DEVELOPERS.md',
    'package.json',
    'package-lock.json',
    'tsconfig.json',
    'biome.json',
    'vitest.config.ts',
    'src',
    'hal',
    'sim',
    'tests',
    'wiring',
  ];
  const kept = execFileSync('git', ['ls-tree', '--name-only', 'HEAD'], { cwd: root }).toString();
  const found = kept.split('\n').filter((name) => name !== '' && !name.startsWith('.'));
  expect(found.toSorted()).toEqual(meant.toSorted());
});

test('every file that the README and DEVELOPERS.md name in code exists', () => {
  for (const page of ['README.md', 'DEVELOPERS.md']) {
    const text = readFileSync(root + page, 'utf8');
    const named = [...text.matchAll(/`((?:src|sim|hal|tests|\.biome)\/[\w./-]*)`/g)];
    for (const [, path] of named) expect(existsSync(root + path), `${page}: ${path}`).toBe(true);
  }
});

test('commands print through one place, where control characters are written out', () => {
  // They draw a picture that they made themselves, or write out what they print line by line.
  const draw = ['print.ts', 'progress.ts', 'live-panel.ts', 'ask.ts', 'run-procedure.ts'];
  const files = readdirSync(`${root}src/cli`, { recursive: true, encoding: 'utf8' }).filter(
    (name) => /\.tsx?$/.test(name),
  );
  const writing = files.filter((name) =>
    /\b(?:stdout|stderr|output|out|err)\)?\.write\(|\bconsole\./.test(
      readFileSync(`${root}src/cli/${name}`, 'utf8'),
    ),
  );
  expect(writing.filter((name) => !draw.includes(basename(name)))).toEqual([]);
});
