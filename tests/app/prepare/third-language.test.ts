/** A third language is one folder: English with every letter moved on by half an alphabet. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { catalogueOf } from '../../../src/app/prepare/load-catalogue.ts';
import { guidedWordsOf } from '../../../src/cli/care/guided-words.ts';
import { problemLine } from '../../../src/core/settings.ts';
import type { Catalogue } from '../../../src/panel/catalogue.ts';
import display from '../../../src/panel/catalogues/en/display.json' with { type: 'json' };
import guided from '../../../src/panel/catalogues/en/guided.json' with { type: 'json' };
import { ENGLISH } from '../../panel/catalogues.ts';
import { TOLD_ALARMS } from '../../panel/told-alarms.ts';
import { alarmViews, composeSignals, restViews, stepViews } from '../../panel/views.ts';

const folder = mkdtempSync(join(tmpdir(), 'meniscus-language-'));
afterAll(() => rmSync(folder, { recursive: true }));

const ALPHABET = 'abcdefghijklmnopqrstuvwxyz';
const moved = (letter: string): string => {
  const to = ALPHABET[(ALPHABET.indexOf(letter.toLowerCase()) + 13) % 26] ?? '';
  return letter === letter.toLowerCase() ? to : to.toUpperCase();
};
/** Letters outside the braces of a figure and outside the mark of a step, which has no language. */
const turned = (words: string): string =>
  words.replaceAll(/^\d\.\d+[a-z]?(?= )|\{\w+\}|[a-zA-Z]/g, (part) =>
    part.length > 1 ? part : moved(part),
  );

function turnedAll(value: unknown, key = ''): unknown {
  if (typeof value === 'string')
    return key === 'schema' || key === 'language' ? value : turned(value);
  if (Array.isArray(value)) return value.map((item) => turnedAll(item));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([k, inner]) => [k, turnedAll(inner, k)]));
}

const language = join(folder, 'xx');
mkdirSync(language);
writeFileSync(join(language, 'display.json'), JSON.stringify(turnedAll(display)));
writeFileSync(join(language, 'guided.json'), JSON.stringify(turnedAll(guided)));

const third = (): Catalogue => {
  const loaded = catalogueOf(language);
  if (!loaded.ok) throw new Error(loaded.problems.map(problemLine).join('\n'));
  return loaded.value.catalogue;
};

/**
 * What a screen takes from elsewhere: names on the job sheet, the place of a number that could not
 * be calculated, and the label of the button that stays down, which its alarm still names in
 * English.
 */
const FROM_ELSEWHERE = /wbo-7|erfva|cnarX|ERYRNFRQ/;

test('no screen of a repair holds a word from anywhere but the folder', () => {
  const screens = (catalogue: Catalogue) =>
    [
      ...stepViews(catalogue),
      ...restViews(catalogue, TOLD_ALARMS),
      ...alarmViews(catalogue, TOLD_ALARMS),
    ].map((view) => composeSignals(view).display.join('|'));
  const english = screens(ENGLISH);
  const turnedBack = screens(third()).map(turned);
  expect(
    turnedBack.filter((screen, i) => screen !== english[i] && !FROM_ELSEWHERE.test(screen)),
  ).toEqual([]);
});

test('the guided procedures take their words from the same folder', () => {
  const words = guidedWordsOf(language, undefined);
  expect(words.ok && turned(words.value.steps['gauge-join'].title)).toBe(
    guided.steps['gauge-join'].title,
  );
});
