import { describe, expect, test } from 'vitest';
import { DISPLAY_COLUMNS } from '../../../src/core/frame.ts';
import { STEP_IDS, STEP_MARKS } from '../../../src/core/guided-events.ts';
import englishDisplay from '../../../src/panel/catalogues/en/display.json' with { type: 'json' };
import english from '../../../src/panel/catalogues/en/guided.json' with { type: 'json' };
import spanishDisplay from '../../../src/panel/catalogues/es/display.json' with { type: 'json' };
import spanish from '../../../src/panel/catalogues/es/guided.json' with { type: 'json' };
import { canBeShown, lettersIn, plain } from '../../../src/panel/text.ts';
import { guidedCatalogueSchema } from '../../../src/procedure/guided/catalogue.ts';
import { GUIDED_STEPS } from '../../../src/procedure/guided/progress.ts';

describe.each([
  ['English', english, englishDisplay.letters],
  ['Spanish', spanish, spanishDisplay.letters],
] as const)('%s', (_, file, letters) => {
  const catalogue = guidedCatalogueSchema.parse(file);

  test.each(STEP_IDS)('%s fits the display', (id) => {
    const { title, lines, more, late } = catalogue.steps[id];
    expect(plain(`${STEP_MARKS[id]} ? ${title}`).length).toBeLessThanOrEqual(DISPLAY_COLUMNS);
    for (const line of lines) expect(plain(line).length).toBeLessThanOrEqual(DISPLAY_COLUMNS);
    for (const words of [title, ...lines, more ?? '', late ?? '']) {
      expect(canBeShown(words)).toBe(true);
    }
  });

  test('needs no letter that the display is not given for its language', () => {
    expect(lettersIn(JSON.stringify(catalogue)).filter((l) => !letters.includes(l))).toEqual([]);
  });

  test('buttons, results and titles fit', () => {
    const { buttons, results, live, titles } = catalogue;
    const all = [buttons, results, live, titles].flatMap((group) => Object.values(group));
    for (const words of all) {
      expect(plain(words).length).toBeLessThanOrEqual(DISPLAY_COLUMNS);
      expect(canBeShown(words)).toBe(true);
    }
  });

  test('every step that a person does not wait for says what to look for when it is late', () => {
    for (const id of STEP_IDS) {
      // The alarm of the self-test watches the checks at the start.
      const waits = GUIDED_STEPS[id].kind === 'automatic' && !id.endsWith('-look');
      expect([id, catalogue.steps[id].late !== null]).toEqual([id, waits]);
    }
  });

  test('every step explains itself, but for those in which MORE raises a number', () => {
    for (const id of STEP_IDS) {
      const explained = catalogue.steps[id].more !== null;
      expect([id, explained]).toEqual([id, GUIDED_STEPS[id].kind !== 'entry']);
    }
  });
});

test('marks are told from those of a repair and from each other', () => {
  const marks = Object.values(STEP_MARKS);
  expect(new Set(marks).size).toBe(marks.length);
  for (const mark of marks) expect(mark).toMatch(/^[PUTH]\d{1,2}$/);
});
