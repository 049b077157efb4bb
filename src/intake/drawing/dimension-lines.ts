/**
 * Distances as dimension lines outside the pane: horizontal ones in rows below it, vertical ones in
 * columns to its right, as many to a row as fit side by side. A label longer than its line stands
 * beyond the line's end. Slanting distances are left to `slants.ts`.
 */
import type { Distance } from './distances.ts';
import { type Frame, MARGIN, type Point, toPoint } from './frame.ts';
import { textWidth } from './text-box.ts';
import type { TextLine } from './text-line.ts';

const PITCH = 15;
const FIRST = 14;
const GAP = 5;

export interface DimensionLine {
  readonly distance: Distance;
  /** Ends of the line with its arrow heads. */
  readonly a: Point;
  readonly b: Point;
  /** Start points of the two thin lines that carry the distance out of the pane. */
  readonly carriedFrom: readonly [Point, Point];
  readonly label: TextLine;
}

export interface DimensionLines {
  readonly lines: readonly DimensionLine[];
  readonly rows: number;
}

const NEAR_ZERO = 1e-9;
const isSideways = ({ from, to }: Distance): boolean => Math.abs(from.yMm - to.yMm) < NEAR_ZERO;
export const isUpright = ({ from, to }: Distance): boolean =>
  Math.abs(from.xMm - to.xMm) < NEAR_ZERO;

export const isSlanting = (distance: Distance): boolean =>
  !isSideways(distance) && !isUpright(distance);

/** The widest that the columns can become. */
export function columnRoom(distances: readonly Distance[]): number {
  return FIRST + PITCH * distances.filter(isUpright).length;
}

export const rowsHeight = (rows: number): number => (rows === 0 ? 0 : FIRST + PITCH * rows);

export const distanceText = ({ label, figure }: Distance): string => `${label} ${figure}`.trim();

export function dimensionLines(frame: Frame, distances: readonly Distance[]): DimensionLines {
  const { box, paper } = frame;
  const size = paper.labelSize;
  const below = packed(distances.filter(isSideways), (mm) => toPoint(frame, mm).x, {
    least: MARGIN,
    most: paper.width - MARGIN,
    size,
  });
  const beside = packed(distances.filter(isUpright), (mm) => toPoint(frame, mm).y, {
    least: box.y - paper.labelsOver,
    most: box.y + box.height + FIRST,
    size,
  });
  return {
    lines: [
      ...below.map((span) => rowLine(span, frame)),
      ...beside.map((span) => columnLine(span, frame)),
    ],
    rows: Math.max(0, ...below.map(({ row }) => row + 1)),
  };
}

interface Span {
  readonly distance: Distance;
  readonly from: number;
  readonly to: number;
  /** Middle of the label along the line. */
  readonly labelAt: number;
  readonly low: number;
  readonly high: number;
  readonly row: number;
}

interface Bounds {
  readonly least: number;
  readonly most: number;
  /** Text size of the label. */
  readonly size: number;
}

/**
 * Short ones nearest to the pane; each goes into the first row in which it is clear of the others.
 */
function packed(
  distances: readonly Distance[],
  along: (point: Distance['from']) => number,
  bounds: Bounds,
): readonly Span[] {
  const placed: Span[] = [];
  for (const distance of distances.toSorted((a, b) => a.mm - b.mm)) {
    const span = spanOf(distance, along(distance.from), along(distance.to), bounds);
    const blocked = (row: number): boolean =>
      placed.some(
        (other) => other.row === row && span.low < other.high + GAP && other.low < span.high + GAP,
      );
    let row = 0;
    while (blocked(row)) row += 1;
    placed.push({ ...span, row });
  }
  return placed;
}

function spanOf(distance: Distance, from: number, to: number, { least, most, size }: Bounds) {
  const label = textWidth(distanceText(distance), size) + GAP;
  const low = Math.min(from, to);
  const high = Math.max(from, to);
  const arrows = 14;
  if (high - low >= label + arrows) {
    return { distance, from, to, labelAt: (low + high) / 2, low, high };
  }
  const onLow = to < from ? low - label >= least : high + label > most;
  return onLow
    ? { distance, from, to, labelAt: low - label / 2, low: low - label, high }
    : { distance, from, to, labelAt: high + label / 2, low, high: high + label };
}

function rowLine({ distance, from, to, labelAt, row }: Span, frame: Frame) {
  const { box, paper } = frame;
  const size = paper.labelSize;
  const y = box.y + box.height + FIRST + PITCH * row;
  return {
    distance,
    a: { x: from, y },
    b: { x: to, y },
    carriedFrom: [toPoint(frame, distance.from), toPoint(frame, distance.to)] as const,
    label: label(distance, labelAt, y + 0.35 * size, size),
  };
}

function columnLine({ distance, from, to, labelAt, row }: Span, frame: Frame) {
  const { box, paper } = frame;
  const size = paper.labelSize;
  const x = box.x + box.width + FIRST + PITCH * row;
  return {
    distance,
    a: { x, y: from },
    b: { x, y: to },
    carriedFrom: [toPoint(frame, distance.from), toPoint(frame, distance.to)] as const,
    label: { ...label(distance, x + 0.35 * size, labelAt, size), upright: true },
  };
}

const label = (distance: Distance, x: number, y: number, size: number): TextLine => ({
  text: distanceText(distance),
  x,
  y,
  size,
  anchor: 'middle',
});
