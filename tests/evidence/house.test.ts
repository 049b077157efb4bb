/** Requirements on every outside check. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { ALL_GROUPS } from './all-groups.ts';
import { type CheckGroup, type CheckRow, KIND_OF } from './check.ts';

const here = new URL('.', import.meta.url);
const topics = readdirSync(here, { recursive: true, encoding: 'utf8' }).filter((name) =>
  /^(?!report\/)[\w-]+\/.*(?<!\.test)\.ts$/.test(name),
);
const sourceOf = (name: string): string => readFileSync(new URL(name, here), 'utf8');
const stems = (folder: string, ending: string): string[] =>
  readdirSync(new URL(folder, here))
    .filter((name) => name.endsWith(ending))
    .map((name) => name.slice(0, -ending.length))
    .sort();

/** `group: row` of every row for which this holds. */
const rowsThat = (holds: (row: CheckRow) => boolean): string[] =>
  ALL_GROUPS.flatMap(({ title, rows }) =>
    rows.filter(holds).map(({ what }) => `${title}: ${what}`),
  );

const repeated = (names: readonly string[]): string[] =>
  names.filter((name, i) => names.indexOf(name) !== i);

test('there are at least 120 rows in at least 25 groups', () => {
  expect(rowsThat(() => true).length).toBeGreaterThanOrEqual(120);
  expect(ALL_GROUPS.length).toBeGreaterThanOrEqual(25);
});

test('every row names its source, its unit and what it checks', () => {
  const blank = (text: string) => text.trim() === '';
  expect(rowsThat(({ what, source, unit }) => [what, source, unit].some(blank))).toEqual([]);
});

test('no two groups have one title, and no two rows of a group check one thing', () => {
  expect(repeated(ALL_GROUPS.map(({ title }) => title))).toEqual([]);
  expect(repeated(rowsThat(() => true))).toEqual([]);
  expect(ALL_GROUPS.filter(({ rows }) => rows.length === 0)).toEqual([]);
});

test('every expected value is a number and every tolerance a finite amount', () => {
  expect(
    rowsThat(
      ({ expected, tolerance }) =>
        !Number.isFinite(expected) || !Number.isFinite(tolerance) || tolerance < 0,
    ),
  ).toEqual([]);
});

test('a tolerance over a fifth of what is expected says why, unless nought is expected', () => {
  expect(
    rowsThat(
      ({ expected, tolerance, why = '' }) =>
        expected !== 0 && tolerance > 0.2 * Math.abs(expected) && why.trim() === '',
    ),
  ).toEqual([]);
});

test('a row that misses its source says by how much or why', () => {
  expect(rowsThat(({ misses }) => misses !== undefined && misses.trim().length < 20)).toEqual([]);
});

/** Fifteen digits are the most that a certified value comes with. */
const MOST_PRINTED = 15;
const digits = (value: number): number =>
  value.toExponential().replace(/e.*$/, '').replaceAll(/[.-]/g, '').length;

test('a published figure has no more digits than a source prints: a longer one was worked out', () => {
  expect(
    rowsThat(
      ({ obtained, expected }) =>
        KIND_OF[obtained] === 'published' && digits(expected) > MOST_PRINTED,
    ),
  ).toEqual([]);
});

test('a row that calls itself remembered, worked out or looked up does not say otherwise in its source', () => {
  expect(
    rowsThat(
      ({ obtained, source }) =>
        KIND_OF[obtained] === 'published' && /from memory|worked out|derived/.test(source),
    ),
  ).toEqual([]);
});

test('every stored reference is used by a group, and has its equations and its solver', () => {
  const sources = topics.map(sourceOf).join('\n');
  const stored = stems('reference/', '.json');
  expect(stored.filter((stem) => !sources.includes(`reference/${stem}.json`))).toEqual([]);
  expect(stems('reference/solvers/', '.md')).toEqual(stored);
  expect(stems('reference/solvers/', '.py')).toEqual(stored);
});

test('every group that a file exports is in the report', async () => {
  const isGroup = (value: unknown): value is CheckGroup =>
    typeof value === 'object' && value !== null && 'title' in value && 'rows' in value;
  const modules: object[] = await Promise.all(
    topics.map((name) => import(new URL(name, here).href)),
  );
  const exported = modules.flatMap((module) => Object.values(module).filter(isGroup));
  expect(exported.filter((group) => !ALL_GROUPS.includes(group)).map(({ title }) => title)).toEqual(
    [],
  );
});

test('a curve has as many places as values', () => {
  const uneven = ALL_GROUPS.flatMap(({ plots }) => plots?.() ?? [])
    .flatMap(({ title, lines, points }) => [...lines, ...points].map((curve) => ({ title, curve })))
    .filter(({ curve }) => curve.x.length !== curve.y.length || curve.x.length === 0);
  expect(uneven.map(({ title, curve }) => `${title}: ${curve.label}`)).toEqual([]);
});
