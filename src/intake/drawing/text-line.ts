/** One line of text in the drawing with the space it takes, so that no two overlap. */
import { type Box, textWidth } from './text-box.ts';

export interface TextLine {
  readonly text: string;
  /** Middle or start of the base line. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
  /** Reads upwards. */
  readonly upright?: boolean;
}

const START = { start: 0, middle: 0.5, end: 1 } as const;
const BOLD = 1.08;

export function boxOf({ text, x, y, size, anchor, bold, upright }: TextLine): Box {
  const along = textWidth(text, size) * (bold === true ? BOLD : 1);
  const before = along * START[anchor];
  return upright === true
    ? { x: x - 0.8 * size, y: y - along + before, width: size, height: along }
    : { x: x - before, y: y - 0.8 * size, width: along, height: size };
}

/** Centred on a box. */
export function textIn(text: string, box: Box, size: number): TextLine {
  return {
    text,
    x: box.x + box.width / 2,
    y: box.y + box.height / 2 + 0.35 * size,
    size,
    anchor: 'middle',
  };
}
