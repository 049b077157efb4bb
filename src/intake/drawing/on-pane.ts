/**
 * The damage on the pane, and the labels that have a choice of position: the word beside it, the
 * letters of the areas, the distances on slanting lines. Each keeps clear of what has been placed
 * before.
 */
import { footprintOf } from '../sheet/footprint.ts';
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { isSlanting } from './dimension-lines.ts';
import type { Circle, Distance } from './distances.ts';
import type { DrawingWords } from './drawing-words.ts';
import { type Frame, type Point, toPoint } from './frame.ts';
import { placedBeside, placedLetters, placedSlants } from './placed-labels.ts';
import type { Box } from './text-box.ts';
import { boxOf } from './text-line.ts';

/** Around the damage, so that a small one is found at a glance. */
const FINDER = 9;

interface OnPane {
  readonly distances: readonly Distance[];
  /** Borders of the areas, each of which needs its letter. */
  readonly borders: readonly { readonly letter: string; readonly box: Box }[];
  readonly circle: Circle | null;
  readonly taken: readonly Box[];
  readonly words: DrawingWords;
}

export function placedOnPane(
  sheet: IntakeSheet,
  frame: Frame,
  { distances, borders, circle, taken, words: { marks } }: OnPane,
) {
  const { fromLeftMm: xMm, fromTopMm: yMm } = sheet.place;
  const damageAt = xMm === 'unknown' || yMm === 'unknown' ? null : toPoint(frame, { xMm, yMm });
  const radius = circle === null ? 0 : circle.radiusMm * frame.unitsPerMm;
  // Only the middle of a long crack is kept clear, not its whole length.
  const finder = sheet.damage.type === 'crack' ? FINDER : Math.max(FINDER, radius + 4);
  const ring = damageAt === null ? [] : [ringBox(damageAt, finder)];
  const course = damageAt === null || radius === 0 ? [] : [courseBox(sheet, damageAt, radius)];
  const word =
    damageAt === null
      ? null
      : placedBeside(marks.damage, damageAt, finder + 2, frame, [...taken, ...ring, ...course]);
  const named = word === null ? [] : [word];
  const busy = [...taken, ...ring, ...course, ...named.map(boxOf)];
  const letters = placedLetters(frame, borders, busy);
  const slants = placedSlants(frame, distances.filter(isSlanting), [
    ...busy,
    ...letters.map(({ box }) => box),
  ]);
  const slantTexts = slants.flatMap(({ label }) => (label === null ? [] : [label]));
  return { letters, slants, damageAt, finder, texts: [...named, ...slantTexts] };
}

const ringBox = ({ x, y }: Point, r: number): Box => ({
  x: x - r,
  y: y - r,
  width: 2 * r,
  height: 2 * r,
});

/** The strip in which a crack runs; for other damage its ring is enough. */
function courseBox(sheet: IntakeSheet, { x, y }: Point, radius: number): Box {
  if (sheet.damage.type !== 'crack') return ringBox({ x, y }, radius);
  const [across, down] = runsUpright(sheet) ? [7, radius] : [radius, 7];
  return { x: x - across, y: y - down, width: 2 * across, height: 2 * down };
}

/**
 * Towards the nearest edge where it runs to one, otherwise horizontal: its course is not on the
 * sheet.
 */
export function runsUpright(sheet: IntakeSheet): boolean {
  const { edgesReached } = sheet.damage;
  if (edgesReached === 'unknown' || edgesReached === 0) return false;
  const { xMm, yMm } = footprintOf(sheet);
  const { widthMm, heightMm } = sheet.pane;
  const nearest = (atMm: number | 'unknown', ofMm: number | 'unknown'): number =>
    atMm === 'unknown' || ofMm === 'unknown'
      ? Number.POSITIVE_INFINITY
      : Math.min(atMm, ofMm - atMm);
  return nearest(yMm, heightMm) < nearest(xMm, widthMm);
}
