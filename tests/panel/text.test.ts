import fc from 'fast-check';
import { expect, test } from 'vitest';
import { DISPLAY_COLUMNS } from '../../src/core/frame.ts';
import { canBeShown, ends, fitLine, inLetters, pages, plain, wrap } from '../../src/panel/text.ts';

test('letters that the display can be given stay, others lose their marks, signs have stand-ins', () => {
  expect(plain('¿Está húmedo el daño? ¡Séquelo!')).toBe('¿Está húmedo el daño? ¡Séquelo!');
  expect(plain('cœur, œil, łîź')).toBe('coeur, oeil, liz');
  expect(plain('23 °C · «dos» – 5 m²…')).toBe('23 C . "dos" - 5 m2...');
});

test('a letter with its mark apart is the same as one with its mark on', () => {
  expect(plain('prueba de presio\u0301n, man\u0303ana')).toBe('prueba de presión, mañana');
});

test('a line keeps the letters of its language, and others lose their marks at the same length', () => {
  expect(inLetters('¿Peña? Á è', 'ñ¿')).toBe('¿Peña? A e');
  expect(inLetters('¿Peña?', '')).toBe(' Pena?');
});

test('what the display has no character for is a question mark, and is told', () => {
  expect(plain('a\\b~c')).toBe('a?b?c');
  expect(plain('стекло')).toBe('??????');
  expect([canBeShown('a\\b'), canBeShown('стекло'), canBeShown('¿Años?')]).toEqual([
    false,
    false,
    true,
  ]);
});

test('whatever it is given, a line is 20 columns of the display’s characters', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 60 }), fc.string(), (left, right) => {
      for (const line of [fitLine(left), ends(left, right)]) {
        expect(line).toHaveLength(DISPLAY_COLUMNS);
        expect(inLetters(line, '')).toMatch(/^[\x20-\x5b\x5d-\x7d]*$/);
      }
    }),
  );
});

test('pages lose no word and no line is longer than the display', () => {
  const word = fc.string({
    unit: fc.constantFrom('a', 'ñ', 'ß', 'É', '.'),
    minLength: 1,
    maxLength: 10,
  });
  fc.assert(
    fc.property(fc.array(word, { minLength: 1, maxLength: 40 }), (words) => {
      const text = words.join(' ');
      const lines = pages(text, 2).flat();
      expect(lines).toEqual(wrap(text));
      expect(lines.join(' ')).toBe(plain(text));
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(DISPLAY_COLUMNS);
    }),
  );
});
