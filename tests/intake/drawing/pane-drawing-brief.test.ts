import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { briefLayoutOf } from '../../../src/intake/drawing/brief-layout.ts';
import { ENGLISH_DRAWING } from '../../../src/intake/drawing/drawing-words.ts';
import { layoutOf } from '../../../src/intake/drawing/layout.ts';
import { paneDrawing } from '../../../src/intake/drawing/pane-drawing.tsx';
import { inside } from '../../../src/intake/drawing/text-box.ts';
import { boxOf } from '../../../src/intake/drawing/text-line.ts';
import { loadBuiltInRuleSets } from '../../../src/intake/rules/rule-sets.ts';
import type { IntakeSheet } from '../../../src/intake/sheet/intake-sheet.ts';
import { anySheet } from '../any-sheet.ts';
import { sheetOf } from '../sheet.ts';
import { extentOf, textLinesOf, textsOf } from './svg-reading.ts';

const loaded = loadBuiltInRuleSets();
const SETS = loaded.ok ? loaded.value : [];
const GERMANY = SETS.filter(({ id }) => id === 'de-verkehrsblatt-1986');
const sets = fc.uniqueArray(fc.constantFrom(...SETS), { maxLength: 5 });
const brief = (sheet: IntakeSheet, ruleSets = GERMANY) =>
  paneDrawing(sheet, ruleSets, ENGLISH_DRAWING, 'brief');
/** Wrapped lines put together. */
const wordsOf = (sheet: IntakeSheet, ruleSets = GERMANY) =>
  textsOf(brief(sheet, ruleSets)).join(' ');

describe('the brief form of the drawing', () => {
  test('has no letters under 6.5 points where it is printed 90 mm wide', () => {
    fc.assert(
      fc.property(anySheet, sets, (sheet, ruleSets) => {
        const svg = brief(sheet, ruleSets);
        const pointsPerUnit = ((90 / 25.4) * 72) / extentOf(svg).viewBox.width;
        const sizes = textLinesOf(svg).map(({ size }) => size * pointsPerUnit);
        expect(sizes.length).toBeGreaterThan(3);
        expect(Math.min(...sizes)).toBeGreaterThanOrEqual(6.5);
      }),
      { numRuns: 40 },
    );
  });

  test('is no higher than wide, so that a column of the certificate prints it 90 mm wide', () => {
    fc.assert(
      fc.property(anySheet, sets, (sheet, ruleSets) => {
        const { width, height } = extentOf(brief(sheet, ruleSets)).viewBox;
        expect(height).toBeLessThanOrEqual(width);
      }),
      { numRuns: 40 },
    );
  });

  test('keeps every text, those of the magnified damage too, inside its viewBox', () => {
    fc.assert(
      fc.property(anySheet, sets, (sheet, ruleSets) => {
        const svg = brief(sheet, ruleSets);
        for (const line of textLinesOf(svg)) {
          expect(inside(boxOf(line), extentOf(svg).viewBox), line.text).toBe(true);
        }
      }),
      { numRuns: 40 },
    );
  });

  test('shows the distances to two edges and to the wheel as reckoned by hand, to no zone', () => {
    const { dimensions, slants } = briefLayoutOf(
      sheetOf({ place: { fromLeftMm: 900, fromTopMm: 380 } }),
      GERMANY,
      ENGLISH_DRAWING,
    );
    expect(dimensions.map(({ label }) => label.text).toSorted()).toEqual([
      'right edge 489',
      'upper edge 369',
      'wheel 489',
    ]);
    expect(slants).toEqual([]);
  });

  test('gives the number alone beside a pane too low for the words', () => {
    const sheet = sheetOf({
      pane: { widthMm: 2400, heightMm: 400, sweep: 'unknown' },
      place: { fromLeftMm: 900, fromTopMm: 111 },
    });
    const { dimensions } = briefLayoutOf(sheet, [], ENGLISH_DRAWING);
    expect(dimensions.map(({ label }) => label.text)).toContain('100');
  });

  test('names the areas by the letters of the whole drawing', () => {
    const letters = (drawn: { shapes: readonly { letter: string; rect: unknown }[] }) =>
      drawn.shapes.map(({ letter, rect }) => ({ letter, rect }));
    const ruleSets = SETS.slice(0, 4);
    expect(letters(briefLayoutOf(sheetOf(), ruleSets, ENGLISH_DRAWING))).toEqual(
      letters(layoutOf(sheetOf(), ruleSets, ENGLISH_DRAWING)),
    );
  });

  test('puts the letters of areas that look alike on paper into one box', () => {
    // Three strips a few millimetres beside each other, at about 5 mm to a unit of the drawing.
    const sheet = sheetOf({ pane: { wheelCentreMm: 400, seatCentreMm: 406 } });
    const { letters, hatched } = briefLayoutOf(sheet, GERMANY, ENGLISH_DRAWING);
    expect(letters.map(({ letter }) => letter)).toEqual(['A', 'B–D']);
    expect(hatched).toEqual(['B']);
  });

  test('says what the letters mean where that is short, else where it is said', () => {
    expect(wordsOf(sheetOf())).toContain('A: swept by the wipers; zone B: Germany.');
    const many = wordsOf(sheetOf(), SETS.slice(0, 8));
    expect(many).toContain('Letters: see the full report.');
    expect(many).not.toContain('swept by the wipers');
    const none = sheetOf({ pane: { sweep: 'unknown' } });
    expect(wordsOf(none, [])).not.toContain('Letters');
  });

  test('says what nobody knows, and that a pane of unknown size is not to scale', () => {
    const words = wordsOf(
      sheetOf({
        pane: { widthMm: 'unknown', sweep: 'unknown', wheelCentreMm: 'unknown' },
        place: { fromTopMm: 'unknown' },
      }),
    );
    expect(words).toContain('NOT TO SCALE');
    expect(words).toContain(
      'Not known: width, place of the damage, swept area, wheel centre line.',
    );
    expect(words).not.toContain('Distances in mm');
    expect(wordsOf(sheetOf())).toContain('To scale; pane 1400 × 800 mm. Distances in mm');
  });

  test('says that a crack runs to an edge, which its distance would hide', () => {
    const crack = { type: 'crack', longestLegMm: 180, edgesReached: 1 } as const;
    expect(wordsOf(sheetOf({ damage: crack }))).toContain('It runs to an edge, seal or trim.');
    expect(wordsOf(sheetOf())).not.toContain('runs to an edge');
  });

  test('magnifies the damage by as much as it says', () => {
    const svg = brief(sheetOf());
    const times = Number(/Damage, (\d+) × larger/.exec(svg)?.[1]);
    const { inset, frame } = briefLayoutOf(sheetOf(), GERMANY, ENGLISH_DRAWING);
    // The rim of 11 mm about the pit fills the figure.
    expect(times).toBeCloseTo(inset.figureSide / 22 / frame.unitsPerMm, 0);
  });
});
