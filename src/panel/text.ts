/**
 * Fits words to the display: 20 columns of the characters that every stage up to the glass can
 * carry. The board's text message has 7 bits a character, and the common display ROM (A00) draws
 * its own symbols at two codes; beyond that there are the letters of `core/letters.ts`, of which a
 * language names eight. Other letters lose their accents and some signs are replaced. The terminal
 * shows the same. It decides where a line breaks, not what it says.
 */
import { DISPLAY_COLUMNS } from '../core/frame.ts';
import { LETTERS } from '../core/letters.ts';

/** Replacements for characters that are not accented letters; an opening mark is left out. */
const STAND_INS: ReadonlyMap<string, string> = new Map([
  ['¿', ''],
  ['¡', ''],
  ['ß', 'ss'],
  ['æ', 'ae'],
  ['Æ', 'AE'],
  ['œ', 'oe'],
  ['Œ', 'OE'],
  ['ø', 'o'],
  ['Ø', 'O'],
  ['ł', 'l'],
  ['Ł', 'L'],
  ['ı', 'i'],
  ['«', '"'],
  ['»', '"'],
  ['“', '"'],
  ['”', '"'],
  ['‘', "'"],
  ['’', "'"],
  ['–', '-'],
  ['—', '-'],
  ['…', '...'],
  ['°', ''],
  ['·', '.'],
  ['²', '2'],
  ['³', '3'],
  ['\u00a0', ' '],
]);

const ASCII = '\\x20-\\x5b\\x5d-\\x7d';
const SHOWN = new RegExp(`^[${ASCII}${[...LETTERS.keys()].join('')}]*$`, 'u');
const NOT_SHOWN = new RegExp(`[^${ASCII}${[...LETTERS.keys()].join('')}]`, 'gu');
const NOT_ASCII = /[^\x20-\x7d]/u;
const MARKS = /\p{M}/gu;

/**
 * Converts words to the display's characters; one without a replacement becomes a question mark.
 */
export function plain(words: string): string {
  return SHOWN.test(words) ? words : bare(words).replace(NOT_SHOWN, '?');
}

/** Whether every character exists on the display or has a replacement. */
export const canBeShown = (words: string): boolean => SHOWN.test(bare(words));

/** A letter that the display can be given stays; every other loses its marks. */
const bare = (words: string): string => [...words.normalize('NFC')].map(bareSign).join('');

const bareSign = (sign: string): string => (LETTERS.has(sign) ? sign : folded(sign));

const folded = (sign: string): string =>
  (STAND_INS.get(sign) ?? sign).normalize('NFD').replace(MARKS, '');

/**
 * A line with the letters of one language: every other loses its marks, at the same length. Names
 * from a job sheet may hold any letter, and the display has room for eight.
 */
export function inLetters(line: string, letters: string): string {
  if (!NOT_ASCII.test(line)) return line;
  const own = (sign: string): boolean => !LETTERS.has(sign) || letters.includes(sign);
  return [...line].map((sign) => (own(sign) ? sign : folded(sign).slice(0, 1) || ' ')).join('');
}

/** The letters beyond ASCII in words for which the display needs a character of its own. */
export const lettersIn = (words: string): readonly string[] => [
  ...new Set(
    [...words.normalize('NFC')].filter(
      (sign) => LETTERS.has(sign) || (folded(sign) !== sign && !STAND_INS.has(sign)),
    ),
  ),
];

/** Exactly 20 columns; longer text is cut, which tests rule out for prompts. */
export function fitLine(line: string): string {
  return plain(line).slice(0, DISPLAY_COLUMNS).padEnd(DISPLAY_COLUMNS);
}

/** Left and right end of one line; the right end is never cut. */
export function ends(left: string, right: string): string {
  const end = plain(right);
  const room = Math.max(0, DISPLAY_COLUMNS - end.length);
  return fitLine(plain(left).slice(0, room).padEnd(room) + end);
}

/** Breaks words into lines of 20 columns; a longer word is cut across lines. */
export function wrap(words: string): readonly string[] {
  const lines: string[] = [];
  for (const word of plain(words).split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= DISPLAY_COLUMNS) {
      lines[lines.length - 1] = `${last} ${word}`;
      continue;
    }
    for (let at = 0; at < word.length; at += DISPLAY_COLUMNS) {
      lines.push(word.slice(at, at + DISPLAY_COLUMNS));
    }
  }
  return lines;
}

/** Pages of `rows` lines each. */
export function pages(words: string, rows: number): readonly (readonly string[])[] {
  const lines = wrap(words);
  const result: string[][] = [];
  for (let at = 0; at < lines.length; at += rows) result.push(lines.slice(at, at + rows));
  return result;
}
