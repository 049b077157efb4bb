import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));

test('the lock file names no place from which packages were fetched', () => {
  expect(readFileSync(`${root}package-lock.json`, 'utf8')).not.toContain('"resolved"');
});

test('the top level holds what it is meant to hold and nothing else', () => {
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
    // Made by use, kept out of version control.
    'node_modules',
    'records',
  ];
  const found = readdirSync(root).filter((name) => !name.startsWith('.'));
  expect(found.filter((name) => !meant.includes(name))).toEqual([]);
});

test('every file that the README and DEVELOPERS.md name in code exists', () => {
  for (const page of ['README.md', 'DEVELOPERS.md']) {
    const text = readFileSync(root + page, 'utf8');
    const named = [...text.matchAll(/`((?:src|sim|hal|tests|\.biome)\/[\w./-]*)`/g)];
    for (const [, path] of named) expect(existsSync(root + path), `${page}: ${path}`).toBe(true);
  }
});
