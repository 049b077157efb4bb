import { describe, expect, test } from 'vitest';
import { inchProblems, meantMm, USUAL_SIZES } from '../../../src/intake/sheet/inch-like.ts';
import { sheetOf } from '../sheet.ts';

describe('values that look like inches', () => {
  test('a pane of 55 by 32 was meant in inches', () => {
    expect(meantMm('pane.widthMm', 55)).toBe(1397);
    expect(meantMm('pane.heightMm', 32)).toBe(812.8);
  });

  test('sizes of damage in fractions of an inch are noticed', () => {
    expect(meantMm('damage.diameterMm', 0.875)).toBe(22.2);
    expect(meantMm('damage.pitMm', 0.08)).toBe(2);
    expect(meantMm('damage.longestLegMm', 0.4)).toBe(10.2);
    expect(meantMm('damage.depthMm', 0.06)).toBe(1.5);
  });

  test('a number that may well be millimetres is left alone, and so is 0', () => {
    for (const { path, leastMm } of USUAL_SIZES) {
      expect(meantMm(path, leastMm), path).toBeNull();
      expect(meantMm(path, 0), path).toBeNull();
    }
    expect(meantMm('place.fromLeftMm', 30)).toBeNull();
  });

  test('a number that is nonsense in inches too is left to the range', () => {
    expect(meantMm('pane.widthMm', 200)).toBeNull();
    expect(meantMm('pane.widthMm', 3)).toBeNull();
  });

  test('a file is refused with the path and the millimetres that were probably meant', () => {
    const sheet = sheetOf();
    expect(inchProblems(sheet, 'a.json')).toEqual([]);
    const raw = { ...sheet, pane: { ...sheet.pane, widthMm: 55 } };
    expect(inchProblems(raw, 'a.json')).toEqual([
      {
        file: 'a.json',
        path: 'pane.widthMm',
        value: '55',
        accepted: 'millimetres: this looks like inches, did you mean 1397?',
      },
    ]);
  });
});
