import { expect, test } from 'vitest';
import { LETTERS } from '../../src/core/letters.ts';

/** Drawn as a person sees it on the glass, one string a row. */
const drawn = (letter: string): readonly string[] =>
  (LETTERS.get(letter) ?? []).map((row) =>
    [16, 8, 4, 2, 1].map((dot) => (row & dot ? '#' : '.')).join(''),
  );

test('an ñ is an n under a tilde, drawn with the highest bit at the left', () => {
  expect(LETTERS.get('ñ')).toEqual([0x0d, 0x16, 0x00, 0x16, 0x19, 0x11, 0x11, 0x00]);
});

test('an opening question mark has its dot above and its hook below, open to the right', () => {
  expect(drawn('¿')).toEqual([
    '..#..',
    '.....',
    '..#..',
    '.#...',
    '#....',
    '#...#',
    '.###.',
    '.....',
  ]);
});

test('an acute accent rises to the right, a grave one falls', () => {
  expect(drawn('á').slice(0, 2)).toEqual(['...#.', '..#..']);
  expect(drawn('à').slice(0, 2)).toEqual(['.#...', '..#..']);
});

test('every letter has eight rows of five dots, none like another, the row of the cursor empty', () => {
  const pictures = [...LETTERS.keys()].map((letter) => drawn(letter));
  for (const rows of pictures) {
    expect(rows).toHaveLength(8);
    expect(rows.at(-1)).toBe('.....');
  }
  for (const rows of LETTERS.values()) for (const row of rows) expect(row).toBeLessThan(32);
  expect(new Set(pictures.map(String)).size).toBe(pictures.length);
});
