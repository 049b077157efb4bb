/**
 * The letters beyond ASCII that the display can be given, each as 5 x 8 dots. The display's memory
 * holds eight programmable characters at codes 0 to 7 (HD44780U data sheet, Hitachi, table 5: "3
 * bits: 8 types", and code bit 3 has no effect). Its fixed characters differ between the ROMs A00
 * and A02 (table 4), so that no letter beyond ASCII is taken from them. A language names the letters
 * that it needs; the driver loads them. The lowest row is the cursor's and stays empty.
 */

export const LETTER_SLOTS = 8;
export const LETTER_ROWS = 8;
export const LETTER_COLUMNS = 5;

/** Rows from the top, a dot that is lit is a `#`. */
const PICTURES: Readonly<Record<string, string>> = {
  á: '...#. ..#.. .###. ....# .#### #...# .#### .....',
  é: '...#. ..#.. .###. #...# ##### #.... .###. .....',
  í: '...#. ..#.. ..... .##.. ..#.. ..#.. .###. .....',
  ó: '...#. ..#.. .###. #...# #...# #...# .###. .....',
  ú: '...#. ..#.. #...# #...# #...# #..## .##.# .....',
  ñ: '.##.# #.##. ..... #.##. ##..# #...# #...# .....',
  ü: '.#.#. ..... #...# #...# #...# #..## .##.# .....',
  ä: '.#.#. ..... .###. ....# .#### #...# .#### .....',
  ö: '.#.#. ..... .###. #...# #...# #...# .###. .....',
  à: '.#... ..#.. .###. ....# .#### #...# .#### .....',
  è: '.#... ..#.. .###. #...# ##### #.... .###. .....',
  ù: '.#... ..#.. #...# #...# #...# #..## .##.# .....',
  ê: '..#.. .#.#. .###. #...# ##### #.... .###. .....',
  ô: '..#.. .#.#. .###. #...# #...# #...# .###. .....',
  ã: '.##.# #.##. .###. ....# .#### #...# .#### .....',
  õ: '.##.# #.##. .###. #...# #...# #...# .###. .....',
  ç: '..... .###. #.... #...# .###. ..#.. .##.. .....',
  ß: '.##.. #..#. #..#. #.##. #...# #...# #.##. .....',
  Á: '...#. ..#.. .###. #...# ##### #...# #...# .....',
  É: '...#. ..#.. ##### #.... ####. #.... ##### .....',
  Í: '...#. ..#.. .###. ..#.. ..#.. ..#.. .###. .....',
  Ó: '...#. .###. #...# #...# #...# #...# .###. .....',
  Ú: '...#. ..#.. #...# #...# #...# #...# .###. .....',
  Ñ: '.##.# #.##. #...# ##..# #.#.# #..## #...# .....',
  '¿': '..#.. ..... ..#.. .#... #.... #...# .###. .....',
  '¡': '..#.. ..... ..#.. ..#.. ..#.. ..#.. ..#.. .....',
};

/** Eight rows from the top, five bits each, the highest at the left. */
export type LetterRows = readonly number[];

export const LETTERS: ReadonlyMap<string, LetterRows> = new Map(
  Object.entries(PICTURES).map(([letter, picture]) => [letter, rowsOf(picture)] as const),
);

function rowsOf(picture: string): LetterRows {
  return picture
    .split(' ')
    .map((row) => [...row].reduce((bits, dot) => 2 * bits + (dot === '#' ? 1 : 0), 0));
}
