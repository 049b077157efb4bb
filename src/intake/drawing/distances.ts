/**
 * The distances that the drawing shows, in pane millimetres: from the rim of the damage to the
 * nearer of left and right edge, the nearer of upper and lower edge, the steering wheel's centre
 * line, and each drawn area. Each comes with its two end points. A distance that cannot be
 * determined from the answers is left out.
 */
import type { Rect } from '../sheet/area.ts';
import { type Footprint, gapToMm } from '../sheet/footprint.ts';
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { type DrawingWords, mmText } from './drawing-words.ts';
import type { Shape } from './shapes.ts';

export interface PointMm {
  readonly xMm: number;
  readonly yMm: number;
}

export interface Distance {
  readonly label: string;
  readonly mm: number;
  /** `mm` as it is written. */
  readonly figure: string;
  readonly from: PointMm;
  readonly to: PointMm;
}

export interface Circle extends PointMm {
  readonly radiusMm: number;
}

/** Null where place or size of the damage is not known. */
export function circleOf({ xMm, yMm, radiusMm }: Footprint): Circle | null {
  return xMm === 'unknown' || yMm === 'unknown' || radiusMm === 'unknown'
    ? null
    : { xMm, yMm, radiusMm };
}

export function distancesOf(
  circle: Circle,
  pane: IntakeSheet['pane'],
  shapes: readonly Shape[],
  words: DrawingWords,
): readonly Distance[] {
  const { edges } = words;
  const to = (point: PointMm, label: string): Distance => towards(circle, point, label, words);
  const { xMm, yMm } = circle;
  const { widthMm, heightMm, wheelCentreMm } = pane;
  const sideways = nearer(xMm, widthMm);
  const upright = nearer(yMm, heightMm);
  return [
    to({ xMm: sideways, yMm }, sideways === 0 ? edges.left : edges.right),
    to({ xMm, yMm: upright }, upright === 0 ? edges.upper : edges.lower),
    ...(wheelCentreMm === 'unknown' ? [] : [to({ xMm: wheelCentreMm, yMm }, edges.wheel)]),
    ...together(shapes.map(({ letter, rect }) => to(nearestPoint(circle, rect), letter))),
  ].filter(({ mm }) => mm > 0);
}

/** Areas that begin at the same point share one line. */
function together(distances: readonly Distance[]): readonly Distance[] {
  const lines: Distance[] = [];
  for (const distance of distances) {
    const at = lines.findIndex(
      ({ to, mm }) => mm > 0 && to.xMm === distance.to.xMm && to.yMm === distance.to.yMm,
    );
    const same = lines[at];
    if (same === undefined) lines.push(distance);
    else lines[at] = { ...same, label: `${same.label}, ${distance.label}` };
  }
  return lines;
}

/** The nearer end; where the other distance is not known, the end from which was measured. */
const nearer = (atMm: number, ofMm: number | 'unknown'): number =>
  ofMm === 'unknown' || atMm <= ofMm / 2 ? 0 : ofMm;

const nearestPoint = ({ xMm, yMm }: PointMm, rect: Rect): PointMm => ({
  xMm: Math.min(Math.max(xMm, rect.leftMm), rect.rightMm),
  yMm: Math.min(Math.max(yMm, rect.topMm), rect.bottomMm),
});

/** Starts on the rim; 0 where the damage reaches the target. */
function towards(
  { xMm, yMm, radiusMm }: Circle,
  to: PointMm,
  label: string,
  words: DrawingWords,
): Distance {
  const wholeMm = Math.hypot(to.xMm - xMm, to.yMm - yMm);
  const mm = Math.max(0, wholeMm - radiusMm);
  const part = wholeMm === 0 ? 0 : radiusMm / wholeMm;
  const from = { xMm: xMm + (to.xMm - xMm) * part, yMm: yMm + (to.yMm - yMm) * part };
  return { label, mm, figure: mmText(mm, words), from, to };
}

/** Position of the damage relative to an area: inside, across its border, or at a distance. */
export function lies(circle: Circle, rect: Rect): 'inside' | 'across' | number {
  const { xMm, yMm, radiusMm } = circle;
  const toSides = [xMm - rect.leftMm, rect.rightMm - xMm, yMm - rect.topMm, rect.bottomMm - yMm];
  if (toSides.every((mm) => mm >= radiusMm)) return 'inside';
  const gapMm = gapToMm(circle, rect);
  return typeof gapMm === 'number' && gapMm > 0 ? gapMm : 'across';
}
