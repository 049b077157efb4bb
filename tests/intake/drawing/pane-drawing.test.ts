import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

import { briefLayoutOf } from '../../../src/intake/drawing/brief-layout.ts';
import { ENGLISH_DRAWING } from '../../../src/intake/drawing/drawing-words.ts';
import { layoutOf } from '../../../src/intake/drawing/layout.ts';
import { paneDrawing } from '../../../src/intake/drawing/pane-drawing.tsx';
import {
  type Box,
  inside,
  overlaps,
  textWidth,
  wrapped,
} from '../../../src/intake/drawing/text-box.ts';
import { boxOf } from '../../../src/intake/drawing/text-line.ts';
import { loadBuiltInRuleSets } from '../../../src/intake/rules/rule-sets.ts';
import { INTAKE_DAMAGE_TYPES, type IntakeSheet } from '../../../src/intake/sheet/intake-sheet.ts';
import spanish from '../../../src/panel/catalogues/es/drawing.json' with { type: 'json' };
import { anySheet } from '../any-sheet.ts';
import { sheetOf } from '../sheet.ts';
import { extentOf, textsOf } from './svg-reading.ts';

const loaded = loadBuiltInRuleSets();
const SETS = loaded.ok ? loaded.value : [];
const chosen = (...ids: readonly string[]) => SETS.filter(({ id }) => ids.includes(id));
const GERMANY = chosen('de-verkehrsblatt-1986');

const labels = (sheet: IntakeSheet, sets = GERMANY) =>
  textsOf(paneDrawing(sheet, sets, ENGLISH_DRAWING));

describe('the drawing of the pane', () => {
  test('says from where it is seen, its size and its scale', () => {
    const texts = labels(sheetOf());
    expect(texts).toContain('Pane as seen from the driver’s seat (sheet-1)');
    expect(texts).toContain('1400');
    expect(texts).toContain('800');
    expect(texts.join('\n')).toMatch(/^To scale, 1 : \d/m);
  });

  test('shows the distances of the damage as reckoned by hand', () => {
    // Rim at 11 mm from the pit; the strip is 290 mm about a line at 400 mm.
    const texts = labels(sheetOf({ place: { fromLeftMm: 900, fromTopMm: 380 } }));
    for (const label of ['right edge 489', 'upper edge 369', 'wheel 489', 'B 344']) {
      expect(texts).toContain(label);
    }
    expect(texts.join('\n')).toContain('swept by the wipers: damage in it.');
  });

  test('gives a slanting distance to a zone that lies across a corner', () => {
    // Sweep from (100, 120): 60 left of it and 80 over it is 100 mm, less the rim's 11.
    const sheet = sheetOf({ place: { fromLeftMm: 40, fromTopMm: 40 } });
    const { slants } = layoutOf(sheet, [], ENGLISH_DRAWING);
    expect(slants.map(({ distance }) => [distance.label, Math.round(distance.mm)])).toEqual([
      ['A', 89],
    ]);
    expect(labels(sheet, []).join('\n')).toContain('swept by the wipers: damage 89 mm away.');
  });

  test('shows no distance to what the damage touches, and says that it does', () => {
    const texts = labels(sheetOf({ place: { fromLeftMm: 555, fromTopMm: 300 } }));
    expect(texts.filter((text) => /^B( |,)/.test(text))).toEqual([]);
    expect(texts.join('\n')).toMatch(/far field of view.*: damage touches it/);
  });

  test('draws every zone where it is, to scale', () => {
    const sheet = sheetOf();
    const { frame, shapes } = layoutOf(sheet, GERMANY, ENGLISH_DRAWING);
    const strip = shapes.find(({ letter }) => letter === 'B');
    expect(strip?.box.width).toBeCloseTo(290 * frame.unitsPerMm, 6);
    expect(strip?.box.x).toBeCloseTo(frame.box.x + 255 * frame.unitsPerMm, 6);
    expect(strip?.box.y).toBeCloseTo(frame.box.y + 120 * frame.unitsPerMm, 6);
  });

  test('draws areas that coincide once, under one letter', () => {
    const { shapes } = layoutOf(sheetOf(), GERMANY, ENGLISH_DRAWING);
    // Wheel and seat share a centre line here: three readings of one strip, and the sweep.
    expect(shapes.map(({ letter, areas }) => [letter, areas.length])).toEqual([
      ['A', 1],
      ['B', 3],
    ]);
  });

  test('draws what is known of a pane whose width is not, and says so', () => {
    const sheet = sheetOf({ pane: { widthMm: 'unknown', sweep: 'unknown' } });
    const texts = labels(sheet).join(' ');
    expect(texts).toContain('NOT TO SCALE');
    expect(texts).toContain('width not known');
    expect(texts).toContain('NOT KNOWN: width of the pane, swept area');
    expect(texts).toContain('Not drawn, because the answers needed are not known: swept by');
    expect(texts).toContain('left edge 889');
    expect(texts).not.toMatch(/right edge \d/);
  });

  test('draws no damage whose place nobody knows, and says so', () => {
    const sheet = sheetOf({ place: { fromTopMm: 'unknown' } });
    expect(layoutOf(sheet, GERMANY, ENGLISH_DRAWING).damageAt).toBeNull();
    const texts = labels(sheet).join('\n');
    expect(texts).toContain(
      'The position on the pane is not known. NOT KNOWN: distance from the upper',
    );
    expect(texts).not.toContain('damage\n');
  });

  test('tells earlier repairs and other damage in words', () => {
    const sheet = sheetOf({
      place: { repairsOnPane: 2, earlierRepairMm: 140, otherDamageMm: 'unknown' },
    });
    expect(labels(sheet).join(' ')).toContain(
      'Nearest other damage: not known. Nearest earlier repair: 140 mm away. Repairs on the pane: 2.',
    );
  });

  test('differs by type of damage, and escapes what a person wrote', () => {
    const types = INTAKE_DAMAGE_TYPES.map((type) =>
      paneDrawing(sheetOf({ damage: { type, bodyMm: 12 } }), [], ENGLISH_DRAWING),
    );
    expect(new Set(types).size).toBe(INTAKE_DAMAGE_TYPES.length);
    const svg = paneDrawing(sheetOf({}, { reference: '<b>&"' }), [], ENGLISH_DRAWING);
    expect(svg).toContain('(&lt;b>&amp;');
    expect(svg).not.toContain('<b>');
  });

  test('is plain SVG without styles, classes, scripts or anything from elsewhere', () => {
    const svg = paneDrawing(sheetOf(), SETS.slice(0, 10), ENGLISH_DRAWING);
    expect(svg).not.toMatch(/<(style|script|foreignObject|image|use|pattern)|class=|href|url\(/);
    expect(svg).not.toMatch(/NaN|undefined|Infinity|-->/);
  });
});

const FORMS = [
  { form: 'whole', layout: layoutOf, language: 'English', words: ENGLISH_DRAWING },
  { form: 'whole', layout: layoutOf, language: 'Spanish', words: spanish },
  { form: 'brief', layout: briefLayoutOf, language: 'English', words: ENGLISH_DRAWING },
  { form: 'brief', layout: briefLayoutOf, language: 'Spanish', words: spanish },
] as const;

describe.each(FORMS)('on any pane, in the $form form and $language,', (drawn) => {
  const { form, layout, words } = drawn;
  const sets = fc.uniqueArray(fc.constantFrom(...SETS), { maxLength: 5 });

  test('no two texts lie over each other, none over a letter or the inset, all on the paper', () => {
    fc.assert(
      fc.property(anySheet, sets, (sheet, ruleSets) => {
        const { texts, letters, height, frame, inset } = layout(sheet, ruleSets, words);
        const boxes = [...texts.map(boxOf), ...letters.map(({ box }) => box), inset.box];
        const paper: Box = { x: 0, y: 0, width: frame.paper.width, height };
        for (const [at, box] of boxes.entries()) {
          expect(inside(box, paper), texts[at]?.text).toBe(true);
          const over = boxes.findIndex((other, index) => index > at && overlaps(box, other));
          expect(over, `${texts[at]?.text} / ${texts[over]?.text}`).toBe(-1);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('every line of the drawing stays inside its viewBox', () => {
    fc.assert(
      fc.property(anySheet, sets, (sheet, ruleSets) => {
        const { viewBox, drawn } = extentOf(paneDrawing(sheet, ruleSets, words, form));
        expect(inside(drawn, viewBox), JSON.stringify({ drawn, viewBox })).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  test('a label states the length of its line, and the line its distance', () => {
    fc.assert(
      fc.property(anySheet, sets, (sheet, ruleSets) => {
        const { dimensions, slants, frame, circle } = layout(sheet, ruleSets, words);
        for (const { a, b, label, distance } of [...dimensions, ...slants]) {
          const drawnMm = Math.hypot(b.x - a.x, b.y - a.y) / frame.unitsPerMm;
          expect(drawnMm).toBeCloseTo(distance.mm, 6);
          const stated = Number(label?.text.split(' ').at(-1)?.replace(',', '.') ?? drawnMm);
          expect(Math.abs(stated - drawnMm)).toBeLessThan(0.5 + 1e-9);
        }
        const { fromLeftMm, fromTopMm } = sheet.place;
        const { widthMm, heightMm } = sheet.pane;
        if (circle === null || widthMm === 'unknown') return;
        const gap = (mm: number) => Math.max(0, mm - circle.radiusMm);
        const stated = (names: RegExp) =>
          dimensions.find(({ distance }) => names.test(distance.label))?.distance.mm ?? 0;
        const x = Number(fromLeftMm);
        const y = Number(fromTopMm);
        expect(stated(/left|right|izquierdo|derecho/)).toBeCloseTo(
          gap(Math.min(x, widthMm - x)),
          6,
        );
        expect(stated(/upper|lower|superior|inferior|^$/)).toBeCloseTo(
          gap(Math.min(y, Number(heightMm) - y)),
          6,
        );
        const wheel = Number(sheet.pane.wheelCentreMm);
        expect(stated(/wheel|volante/)).toBeCloseTo(gap(Math.abs(x - wheel)), 6);
      }),
      { numRuns: 80 },
    );
  });
});

describe('words over several lines', () => {
  test('wrapped lines fit, and lose no word', () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[A-Za-z,]{1,30}$/), { minLength: 1 }), (words) => {
        const lines = wrapped(words.join(' '), 10, 120);
        expect(lines.join('').replaceAll(' ', '')).toBe(words.join(''));
        for (const line of lines) expect(textWidth(line, 10)).toBeLessThanOrEqual(120);
      }),
    );
  });
});
