import { describe, expect, test } from 'vitest';
import { countedForm, schemaLike } from '../../src/core/language-file.ts';
import { checkSettings, problemLine } from '../../src/core/settings.ts';

const ENGLISH = {
  schema: 'meniscus/demo@1',
  language: 'en',
  title: 'Seal',
  legs: { one: '{value} leg', other: '{value} legs' },
  list: ['first', 'at {at} min'],
};

const lineFor = (own: unknown): string => {
  const checked = checkSettings(schemaLike(ENGLISH), own, 'fr/demo.json');
  return checked.ok ? 'accepted' : checked.problems.map(problemLine).join('\n');
};

describe('a file of a language', () => {
  test('with the same keys and figures is accepted, whatever it says', () => {
    const legs = { one: '{value} patte', other: '{value} pattes' };
    expect(
      lineFor({ ...ENGLISH, language: 'fr', title: 'Joint', legs, list: ['un', '{at} min'] }),
    ).toBe('accepted');
  });

  test('that lacks a key is refused by file and key', () => {
    const { title: _, ...most } = ENGLISH;
    expect(lineFor(most)).toMatch(/^fr\/demo\.json: title is missing/);
  });

  test('with a key of its own is refused by file and key', () => {
    expect(lineFor({ ...ENGLISH, subtitle: 'x' })).toMatch(/^fr\/demo\.json: subtitle is "x"/);
  });

  test('whose text drops a figure is told which', () => {
    expect(lineFor({ ...ENGLISH, list: ['un', 'min'] })).toMatch(
      /list\.1 is "min"; accepted: a text with \{at\}/,
    );
  });

  test('that is of another kind is refused', () => {
    expect(lineFor({ ...ENGLISH, schema: 'meniscus/other@1' })).toContain('"meniscus/demo@1"');
  });

  test('may have more forms of a count, which that language then uses', () => {
    const legs = { one: '{value} noha', few: '{value} nohy', other: '{value} noh' };
    expect(lineFor({ ...ENGLISH, language: 'cs', legs })).toBe('accepted');
    expect([1, 3, 5].map((count) => countedForm(legs, count, 'cs'))).toEqual([
      legs.one,
      legs.few,
      legs.other,
    ]);
  });
});
