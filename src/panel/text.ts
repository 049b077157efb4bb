/**
 * Fits words to the display: 20 columns of the characters that every stage up to the glass can
 * carry. The board's text message has 7 bits a character, and the common display ROM (A00) draws
 * its own symbols at two codes; so letters lose their accents (á is a, ñ is n) and some signs are
 * replaced. The terminal shows the same. It decides where a line breaks, not what it says.
 */
import { DISPLAY_COLUMNS } from '../core/frame.ts';

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

const SHOWN = /^[\x20-\x5b\x5d-\x7d]*$/;
const MARKS = /\p{M}/gu;
const NOT_SHOWN = /[^\x20-\x5b\x5d-\x7d]/gu;

/**
 * Converts words to the display's characters; one without a replacement becomes a question mark.
 */
export function plain(words: string): string {
  return SHOWN.test(words) ? words : bare(words).replace(NOT_SHOWN, '?');
}

/** Whether every character exists on the display or has a replacement. */
export const canBeShown = (words: string): boolean => SHOWN.test(bare(words));

function bare(words: string): string {
  const stood = [...words.normalize('NFC')].map((sign) => STAND_INS.get(sign) ?? sign).join('');
  return stood.normalize('NFD').replace(MARKS, '');
}

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
