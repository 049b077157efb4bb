import fc from 'fast-check';
import { expect, it } from 'vitest';
import { adviceOf, readBottles } from '../../../src/app/prepare/advice-of.ts';
import { adviceLines } from '../../../src/cli/assess/advice-lines.ts';
import { wrapped } from '../../../src/cli/terminal/text-columns.ts';
import { DEFAULT_CONFIG } from '../../configs.ts';
import { sheetOf } from '../../intake/sheet.ts';

const RESIN = 'src/app/defaults/resin.json';

const linesFor = (today: string, change = {}, permitted = true): readonly string[] => {
  const bottles = readBottles([RESIN]);
  if (!bottles.ok) throw new Error('no resin');
  const { unit } = DEFAULT_CONFIG;
  const sheet = sheetOf(change);
  const advice = adviceOf({ sheet, bottles: bottles.value, unit, today, permitted });
  if (!advice.ok) throw new Error(JSON.stringify(advice.problems));
  return adviceLines(advice.value);
};

it('says what to take and set, within 80 columns', () => {
  const lines = linesFor('2000-01-01');
  expect(lines[0]).toBe('Advice: the repair can begin.');
  expect(lines.join('\n')).toContain('use this one');
  expect(lines.join('\n')).toContain('vacuum 25 kPa abs for 60 s');
  for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
});

it('says to whoever must decide that nothing begins before that', () => {
  const lines = linesFor('2000-01-01', {}, false);
  expect(lines[0]).toBe('Advice for the person who must decide; no work begins before that.');
  expect(lines.join('\n')).not.toContain('can begin');
  expect(lines.join('\n')).toContain('vacuum 25 kPa abs for 60 s');
});

it('says why a bottle does not suit', () => {
  expect(linesFor('2100-01-03').join('\n')).toContain('expired on 2099-12-31, 3 days ago');
});

it('marks what must come first', () => {
  const lines = linesFor('2000-01-01', { conditions: { glassC: 4 } });
  expect(lines[1]).toMatch(/^ {2}! Glass is 4 C\. Bring the vehicle in/);
});

it('loses no word when it breaks lines', () => {
  fc.assert(
    fc.property(fc.array(fc.stringMatching(/^[a-z]{1,20}$/), { minLength: 1 }), (words) => {
      const lines = wrapped(words.join(' '), 2, 4);
      expect(lines.map((line) => line.trim()).join(' ')).toBe(words.join(' '));
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
    }),
  );
});
