/**
 * Estimates the space of a line of text in the drawing and finds a free position for it. Widths are
 * those of the common sans-serif faces, rounded up, because the viewer chooses the face.
 */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const NARROW = /[ijltfrI.,:;'’|!() ]/;
const WIDE = /[mwMW%]/;
const CAPITAL = /[A-Z]/;

const emOf = (letter: string): number => {
  if (NARROW.test(letter)) return 0.34;
  if (WIDE.test(letter)) return 0.9;
  return CAPITAL.test(letter) ? 0.73 : 0.56;
};

export function textWidth(text: string, size: number): number {
  return [...text].reduce((sum, letter) => sum + emOf(letter), 0) * size;
}

/** Lines of at most this width; a longer single word is broken. */
export function wrapped(text: string, size: number, width: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(' ').flatMap((one) => pieces(one, size, width))) {
    const longer = `${lines.at(-1)} ${word}`;
    if (lines.length === 0 || textWidth(longer, size) > width) lines.push(word);
    else lines[lines.length - 1] = longer;
  }
  return lines;
}

function pieces(word: string, size: number, width: number): readonly string[] {
  if (textWidth(word, size) <= width) return [word];
  const fits = Math.max(1, Math.floor(width / (0.9 * size)));
  return word.match(new RegExp(`.{1,${fits}}`, 'gu')) ?? [];
}

export const overlaps = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

export const inside = (a: Box, b: Box): boolean =>
  a.x >= b.x && a.y >= b.y && a.x + a.width <= b.x + b.width && a.y + a.height <= b.y + b.height;

/** The first of these boxes that overlaps nothing placed so far; null where each does. */
export function firstFree(candidates: readonly Box[], taken: readonly Box[]): Box | null {
  return candidates.find((box) => !taken.some((other) => overlaps(box, other))) ?? null;
}

export const contains = (box: Box, { x, y }: { readonly x: number; readonly y: number }): boolean =>
  x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height;
