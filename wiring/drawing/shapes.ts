/**
 * The few shapes that drawings consist of, in grid units of GRID_MM, and how they are turned and
 * moved. Text stays upright whatever its part does. The sheets decide what is drawn where.
 */
export const GRID_MM = 2.5;
/** Text height; the minimum on paper. */
export const FONT_MM = 2.5;
/** Width of a character of the fixed-width font, as a share of its height. */
export const CHARACTER_RATIO = 0.6;

export type Point = readonly [x: number, y: number];
export type Anchor = 'start' | 'middle' | 'end';

export interface Line {
  readonly kind: 'line';
  readonly points: readonly Point[];
  readonly filled?: boolean;
  readonly heavy?: boolean;
}
export interface Circle {
  readonly kind: 'circle';
  readonly at: Point;
  readonly radius: number;
  readonly filled?: boolean;
}
export interface Text {
  readonly kind: 'text';
  /** Of the baseline. */
  readonly at: Point;
  readonly anchor: Anchor;
  readonly text: string;
  readonly bold?: boolean;
  readonly sizeMm?: number;
}
export type Shape = Line | Circle | Text;

/** Quarter turns clockwise. */
export type Turn = 0 | 1 | 2 | 3;

const TURNED: Readonly<Record<Turn, (point: Point) => Point>> = {
  0: ([x, y]) => [x, y],
  1: ([x, y]) => [-y, x],
  2: ([x, y]) => [-x, -y],
  3: ([x, y]) => [y, -x],
};

/** Position of a symbol's point on the sheet. */
export const placed = ([x, y]: Point, [atX, atY]: Point, turn: Turn): Point => {
  const [turnedX, turnedY] = TURNED[turn]([x, y]);
  return [atX + turnedX, atY + turnedY];
};

export function placedShape(shape: Shape, at: Point, turn: Turn): Shape {
  if (shape.kind === 'line') {
    return { ...shape, points: shape.points.map((point) => placed(point, at, turn)) };
  }
  return { ...shape, at: placed(shape.at, at, turn) };
}

export const line = (...points: Point[]): Line => ({ kind: 'line', points });
export const filled = (...points: Point[]): Line => ({ kind: 'line', points, filled: true });
export const rectangle = (x: number, y: number, width: number, height: number): Line =>
  line([x, y], [x + width, y], [x + width, y + height], [x, y + height], [x, y]);
export const text = (at: Point, anchor: Anchor, words: string): Text => ({
  kind: 'text',
  at,
  anchor,
  text: words,
});

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The space of a text, by the width of a fixed-width font. */
export function textBox({ at: [x, y], anchor, text: words, sizeMm = FONT_MM }: Text): Box {
  const size = sizeMm / GRID_MM;
  const width = [...words].length * CHARACTER_RATIO * size;
  const left = { start: x, middle: x - width / 2, end: x - width }[anchor];
  return { left, right: left + width, top: y - 0.75 * size, bottom: y + 0.25 * size };
}
