import { describe, expect, test } from 'vitest';
import { answerAt } from '../../../src/core/fields.ts';
import { hearAnswer } from '../../../src/intake/sheet/answer-text.ts';
import { intakeSheetSchema } from '../../../src/intake/sheet/intake-sheet.ts';
import { mayBeUnknown } from '../../../src/intake/sheet/question.ts';
import {
  answersOf,
  askedOf,
  draftOf,
  gapsFilled,
  QUESTIONS,
  refusalOf,
  sheetOf,
} from '../../../src/intake/sheet/questions.ts';
import { sheetOf as wholeSheet } from '../sheet.ts';

const CONTEXT = {
  today: '2000-01-02',
  ruleSets: [
    { id: 'one', name: 'The first' },
    { id: 'two', name: 'The second' },
  ],
};

const question = (path: string) => {
  const found = QUESTIONS.find((one) => one.path === path);
  if (found === undefined) throw new Error(path);
  return found;
};
const heard = (path: string, typed: string) => hearAnswer(question(path), typed, CONTEXT);
const pathsAsked = (damage: object) =>
  askedOf(answersOf({ damage })).map(({ path }) => path.replace('damage.', ''));

/** Every answer of a sheet by its path; the four sides of the sweep are one answer. */
const pathsOf = (sheet: object): readonly string[] =>
  Object.entries(sheet).flatMap(([key, value]) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.keys(value).map((field) => `${key}.${field}`)
      : [key],
  );

describe('the questionnaire', () => {
  test('asks for every answer of the sheet once and for nothing else', () => {
    // The other damages of the pane come from their own sheets.
    const wanted = pathsOf(wholeSheet()).filter((path) => !['schema', 'samePane'].includes(path));
    expect(QUESTIONS.map(({ path }) => path).toSorted()).toEqual(wanted.toSorted());
  });

  test('offers for each choice just what the sheet accepts', () => {
    const choices = QUESTIONS.flatMap(({ path, answer }) =>
      answer.kind === 'choice' ? [{ path, values: answer.options.map(({ value }) => value) }] : [],
    );
    for (const { path, values } of choices) {
      for (const value of values) expect(refusalOf(path, value), `${path} ${value}`).toBeNull();
      const accepted = refusalOf(path, 'none of these') ?? '';
      const named = accepted.replace('one of ', '').replace(', or "unknown"', '').split(', ');
      expect(values.toSorted(), path).toEqual(named.toSorted());
    }
  });

  test('takes "unknown" wherever it says so', () => {
    for (const one of QUESTIONS.filter(mayBeUnknown)) {
      expect(refusalOf(one.path, 'unknown'), one.path).toBeNull();
      expect(hearAnswer(one, 'u', CONTEXT)).toEqual({ kind: 'answer', answer: 'unknown' });
    }
  });

  test('an empty sheet says unknown everywhere and passes the schema', () => {
    const sheet = intakeSheetSchema.parse(sheetOf({}));
    for (const { path } of QUESTIONS.filter(mayBeUnknown)) {
      expect(answerAt(sheet, path), path).toBe('unknown');
    }
  });

  test('a ring is not asked about legs, a crack not about its width', () => {
    expect(pathsAsked({ type: 'star-break' })).toContain('legs');
    const ring = pathsAsked({ type: 'bullseye' });
    for (const path of ['legs', 'longestLegMm', 'cracksMeet', 'bodyMm', 'impactPoint']) {
      expect(ring).not.toContain(path);
    }
    expect(pathsAsked({ type: 'crack' })).not.toContain('diameterMm');
    expect(pathsAsked({ type: 'crack' })).toContain('impactPoint');
    expect(pathsAsked({ type: 'combination-break' })).toContain('bodyMm');
    expect(pathsAsked({ type: 'unknown' })).toEqual(
      expect.arrayContaining(['legs', 'longestLegMm', 'diameterMm', 'impactPoint']),
    );
  });

  test('what is not asked follows from what was answered', () => {
    const sheet = sheetOf(answersOf({ damage: { type: 'surface-pit', pitMm: 3 } }));
    expect(sheet.damage).toMatchObject({ legs: 0, longestLegMm: 0, diameterMm: 3 });
    expect(sheetOf(answersOf({ place: { repairsOnPane: 0 } })).place.earlierRepairMm).toBeNull();
  });

  test('what somebody stated all the same is kept, so that it can be asked back', () => {
    const sheet = sheetOf(answersOf({ damage: { type: 'bullseye', legs: 4 } }));
    expect(sheet.damage.legs).toBe(4);
  });

  test('a draft holds only what was answered and is read back as it was', () => {
    const answers = { 'damage.type': 'crack', 'place.otherDamageMm': null };
    expect(draftOf(answers)).toEqual({
      schema: 'meniscus/intake@1',
      damage: { type: 'crack' },
      place: { otherDamageMm: null },
    });
    expect(answersOf(draftOf(answers))).toEqual(answers);
  });

  test('a file with gaps keeps what is wrong in it', () => {
    const filled = gapsFilled({ damage: { type: 'dent', colour: 'blue' } });
    expect(filled).toMatchObject({ damage: { type: 'dent', colour: 'blue', pitMm: 'unknown' } });
  });
});

describe('what is typed', () => {
  test('a number is taken in mm, with or without the unit', () => {
    expect(heard('damage.pitMm', '2')).toEqual({ kind: 'answer', answer: 2 });
    expect(heard('damage.pitMm', '2.5 mm')).toEqual({ kind: 'answer', answer: 2.5 });
  });

  test.each([
    ['55 in', 1397],
    ['55"', 1397],
    ['55 1/2 in', 1409.7],
    ['139.7 cm', 1397],
    ['1.397 m', 1397],
  ])('%s is converted and asked back', (typed, mm) => {
    expect(heard('pane.widthMm', typed)).toMatchObject({ kind: 'did-you-mean', answer: mm });
  });

  test('a bare number that looks like inches is asked back and may stand', () => {
    expect(heard('pane.widthMm', '55')).toMatchObject({ answer: 1397, asGiven: 55 });
  });

  test.each([
    ['1,5', 1.5],
    ['1,50', 1.5],
    [',5', 0.5],
    ['2,5 mm', 2.5],
    // No thousands begin with 0, or have four digits before the comma or behind it.
    ['0,325', 0.325],
    ['1,2345', 1.2345],
    ['1.500', 1.5],
  ])('%s has a decimal comma or point: %f', (typed, value) => {
    expect(heard('damage.pitMm', typed)).toEqual({ kind: 'answer', answer: value });
  });

  test.each([
    ['1,500', 1.5, 1500],
    ['12,250', 12.25, 12_250],
    ['1,397 m', 1.397, 1397],
  ])('%s may have a decimal comma or thousands, so it is asked again', (typed, one, other) => {
    const said = heard('pane.widthMm', typed);
    expect(said.kind).toBe('ambiguous');
    expect(said).toMatchObject({ words: expect.stringContaining(` ${one} or ${other}?`) });
  });

  test('a comma before one or two digits is converted like a point', () => {
    expect(heard('pane.widthMm', '139,7 cm')).toMatchObject({ kind: 'did-you-mean', answer: 1397 });
    expect(heard('conditions.airKPa', '100,6')).toEqual({ kind: 'answer', answer: 100.6 });
    expect(heard('conditions.glassC', '-2,5 C')).toEqual({ kind: 'answer', answer: -2.5 });
  });

  test.each(['1.500,5', '1,500.5', '1,500,000', '1,5,2', '1,', '1 500', '1,1/2'])(
    '"%s" is refused with what is accepted',
    (typed) => {
      expect(heard('pane.widthMm', typed)).toEqual({
        kind: 'not-understood',
        accepted: 'a number in mm, with a decimal point or comma and no thousands separators',
      });
    },
  );

  test.each(['two', '', '1e3', '3 ft', '1/0', '--2', '0x10'])(
    '"%s" is no number in mm',
    (typed) => {
      expect(heard('damage.pitMm', typed).kind).toBe('not-understood');
    },
  );

  test('no unit of length is taken for degrees, legs or kilopascals', () => {
    expect(heard('conditions.glassC', '23 C')).toEqual({ kind: 'answer', answer: 23 });
    expect(heard('conditions.airKPa', '100.6 kPa')).toEqual({ kind: 'answer', answer: 100.6 });
    expect(heard('damage.legs', '5 in').kind).toBe('not-understood');
    expect(heard('conditions.glassC', '-5')).toEqual({ kind: 'answer', answer: -5 });
  });

  test('choices go by number or word, rule sets by numbers or ids', () => {
    expect(heard('damage.type', '3')).toEqual({ kind: 'answer', answer: 'star-break' });
    expect(heard('damage.type', 'crack')).toEqual({ kind: 'answer', answer: 'crack' });
    expect(heard('damage.type', '7').kind).toBe('not-understood');
    expect(heard('ruleSets', '2, one')).toEqual({ kind: 'answer', answer: ['two', 'one'] });
    expect(heard('ruleSets', 'none')).toEqual({ kind: 'answer', answer: [] });
    expect(heard('ruleSets', '3').kind).toBe('not-understood');
  });

  test('four sides are four numbers', () => {
    expect(heard('pane.sweep', '60 110 45 70')).toEqual({
      kind: 'answer',
      answer: { leftMm: 60, rightMm: 110, topMm: 45, bottomMm: 70 },
    });
    expect(heard('pane.sweep', '60 110 45').kind).toBe('not-understood');
  });

  test.each([
    ['60,110,45,70', [60, 110, 45, 70]],
    ['60, 110, 45, 70', [60, 110, 45, 70]],
    ['60 ,110 ,45 ,70', [60, 110, 45, 70]],
    ['60; 110; 45; 70', [60, 110, 45, 70]],
    ['60,5 110 45,25 70', [60.5, 110, 45.25, 70]],
    ['60,5; 110,5; 45; 70', [60.5, 110.5, 45, 70]],
  ])('four sides as "%s" are four numbers too', (typed, [leftMm, rightMm, topMm, bottomMm]) => {
    expect(heard('pane.sweep', typed)).toEqual({
      kind: 'answer',
      answer: { leftMm, rightMm, topMm, bottomMm },
    });
  });

  test('two sides with decimal commas are not four, and thousands are asked again', () => {
    expect(heard('pane.sweep', '60,5 110,5').kind).toBe('not-understood');
    expect(heard('pane.sweep', '1.060,5 110 45 70').kind).toBe('not-understood');
    expect(heard('pane.sweep', '1,060 110 45 70')).toMatchObject({
      kind: 'ambiguous',
      words: expect.stringContaining('1.06 or 1060?'),
    });
  });

  test('none is an answer where there may be none, and nowhere else', () => {
    expect(heard('place.otherDamageMm', 'none')).toEqual({ kind: 'answer', answer: null });
    expect(heard('damage.pitMm', 'none').kind).toBe('not-understood');
  });
});
