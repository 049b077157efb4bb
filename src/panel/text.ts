/**
 * Fits words to the display: 20 columns, plain ASCII without the two characters that the common
 * display ROM draws otherwise. It decides where a line breaks, not what it says.
 */
import { DISPLAY_COLUMNS } from '../frame.ts';

/** Exactly 20 columns; what is too long is cut, which tests make sure never happens to a prompt. */
export function fitLine(line: string): string {
  return plain(line).slice(0, DISPLAY_COLUMNS).padEnd(DISPLAY_COLUMNS);
}

/** Left and right end of one line; the right end is never cut. */
export function ends(left: string, right: string): string {
  const room = DISPLAY_COLUMNS - right.length;
  return fitLine(plain(left).slice(0, Math.max(0, room)).padEnd(room) + right);
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

/** The display's ROM (character set A00) shows other signs for backslash and tilde. */
export function plain(words: string): string {
  return words.replace(/[^\x20-\x7d]|\\/g, '?');
}
