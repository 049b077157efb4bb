/** The page in the folder is of the tables as they are: a row that was added or changed needs a run. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { ACCEPTED } from './accepted.ts';
import { FALSITIES } from './claims.ts';
import { LIMITS } from './limits.ts';
import { ROWS } from './rows.ts';

const PAGE = readFileSync(new URL('PROVED.md', import.meta.url), 'utf8');
const lines = PAGE.split('\n');

test('every row of the table is on the page, and no other', () => {
  const named = lines.flatMap((line) => {
    const [id = '', , state = ''] = line.slice(2).split(' | ');
    return ['found', 'not found', 'accepted', 'broken'].includes(state) ? [id] : [];
  });
  expect(named.sort()).toEqual(ROWS.map(({ id }) => id).sort());
});

test.each(ROWS.map(({ id, title }) => [id, title]))('%s as it is told now', (id, title) => {
  expect(PAGE).toContain(`| ${id} | ${title} |`);
});

test('every limit, its time and its source', () => {
  for (const { id, words, graceS, source } of LIMITS) {
    expect(lines).toContain(`| ${id} | ${words} | ${graceS} s | ${source} |`);
  }
});

test('every claim that is judged, and every reason that is accepted', () => {
  expect(PAGE).toContain(Object.keys(FALSITIES).join(', '));
  for (const { why } of Object.values(ACCEPTED)) expect(PAGE).toContain(why);
});
