import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import job from '../../src/app/defaults/job.json' with { type: 'json' };
import { settingsFromInputs } from '../../src/app/prepare/load-settings.ts';
import {
  escapedLines,
  escapedValue,
  isPlainText,
  madePlain,
  unplainTexts,
} from '../../src/core/plain-text.ts';
import { checkSettings, problemLine, text, unplainProblems } from '../../src/core/settings.ts';
import { DEFAULT_SETTINGS } from '../configs.ts';
import { nasty, steers } from './nasty-text.ts';

describe('what a text may hold', () => {
  test.each(['Ana', 'Łukasz Żółć', 'محمد', '山田 太郎', 'O’Neill, 22 mm (22 °C)', 'a\u200fb'])(
    '%s is plain',
    (words) => expect(isPlainText(words)).toBe(true),
  );

  test('a text is plain exactly where none of its characters steers', () => {
    fc.assert(
      fc.property(nasty, (words) => {
        expect(isPlainText(words)).toBe(![...words].some(steers));
      }),
    );
  });
});

describe('what is printed', () => {
  test('no value that is written out steers anything, and a plain one stays as it is', () => {
    fc.assert(
      fc.property(nasty, (words) => {
        const shown = escapedValue(words);
        expect([...shown].some(steers)).toBe(false);
        if (isPlainText(words)) expect(shown).toBe(words);
      }),
    );
  });

  test('lines end at line feeds and nothing else', () => {
    fc.assert(
      fc.property(nasty, (words) => {
        const steering = [...escapedLines(words)].filter(steers);
        expect(steering).toEqual([...words].filter((character) => character === '\n'));
      }),
    );
  });

  test('a problem with any value takes one line', () => {
    fc.assert(
      fc.property(nasty, nasty, (file, value) => {
        const line = problemLine({ file, path: 'name', value, accepted: 'a name' });
        expect([...line].some(steers)).toBe(false);
      }),
    );
  });
});

describe('a record that is older than the rule', () => {
  test('is made plain wherever a text of it is not, and nothing else in it changes', () => {
    fc.assert(
      fc.property(fc.array(nasty), nasty, (list, name) => {
        const plain = madePlain({ list, resin: { name }, legs: 5, depthMm: null });
        expect(unplainTexts(plain)).toEqual([]);
        expect(plain).toMatchObject({ legs: 5, depthMm: null });
        for (const words of list.filter(isPlainText))
          expect(plain).toHaveProperty('list', expect.arrayContaining([words]));
      }),
      { seed: 1 },
    );
  });

  test('can be run again: a job whose notes would forge a line', () => {
    const { inputs } = DEFAULT_SETTINGS;
    const forged = { ...job, reference: 'demo\u009bX', notes: 'a\nVerdict: good' };
    expect(settingsFromInputs({ ...inputs, job: forged }, 'journal.jsonl').ok).toBe(true);
  });
});

describe('at the door', () => {
  test('a name that would forge a line of the verdict is refused, with path and value', () => {
    const forged = { customer: { name: 'Demo\nVerdict: process within its limits' } };
    expect(unplainProblems(forged, 'job.json')).toEqual([
      {
        file: 'job.json',
        path: 'customer.name',
        value: '"Demo\\nVerdict: process within its limits"',
        accepted: 'a text on one line without control characters',
      },
    ]);
  });

  test('texts in lists and names of fields are looked at too', () => {
    const found = unplainTexts({ list: ['sound', '\u001b[2J'], 'a\u202eb': 1 });
    expect(found).toEqual([
      { path: ['list', 1], value: '\u001b[2J' },
      { path: [], value: 'a\u202eb' },
    ]);
  });

  test('a text of a schema refuses them by itself', () => {
    const schema = z.strictObject({ name: text(40) });
    expect(checkSettings(schema, { name: 'a\u0007b' }, 'f.json').ok).toBe(false);
    expect(checkSettings(schema, { name: 'a b' }, 'f.json').ok).toBe(true);
  });
});
