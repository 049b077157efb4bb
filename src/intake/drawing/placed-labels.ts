/**
 * Places labels that have a choice of position: the letter of each area on its border, the distance
 * on a slanting line, the word beside the damage, the names of centre lines above the pane. Each
 * takes the first free position; a label that finds none is left to the list below the drawing.
 */
import { distanceText } from './dimension-lines.ts';
import type { Distance } from './distances.ts';
import { type Frame, MARGIN, type Paper, type Point, toPoint } from './frame.ts';
import { type Box, firstFree, inside, overlaps, textWidth } from './text-box.ts';
import { boxOf, type TextLine, textIn } from './text-line.ts';

const LETTER_SIZE = 10;
const LETTER_BOX = 15;
/** Positions for a letter along a side, from the ends inwards. */
const STEPS = [0.12, 0.88, 0.3, 0.7, 0.5, 0.2, 0.8, 0.4, 0.6];
const NEAR = 9;

export interface Letter {
  readonly letter: string;
  readonly box: Box;
}

/** Prefers a stretch of border that no other area's border shares. */
export function placedLetters(
  { paper }: Frame,
  borders: readonly { readonly letter: string; readonly box: Box }[],
  taken: readonly Box[],
): readonly Letter[] {
  const placed: Letter[] = [];
  for (const { letter, box } of borders) {
    const others = borders.filter((other) => other.letter !== letter);
    const crowd = (at: Box): number =>
      others.filter((other) => onBorder(middleOf(at), other.box)).length;
    const candidates = borderBoxes(box, Math.max(LETTER_BOX, 4 + textWidth(letter, LETTER_SIZE)));
    const sorted = candidates
      .filter((at) => fitsAcross(at, paper))
      .toSorted((a, b) => crowd(a) - crowd(b));
    const free = firstFree(sorted, [...taken, ...placed.map((one) => one.box)]);
    if (free !== null) placed.push({ letter, box: free });
  }
  return placed;
}

const fitsAcross = ({ x, width }: Box, paper: Paper): boolean =>
  x > MARGIN / 4 && x + width < paper.width - MARGIN / 4;

function borderBoxes(box: Box, width: number): readonly Box[] {
  const along = (part: number): readonly Point[] => [
    { x: box.x + part * box.width, y: box.y },
    { x: box.x + part * box.width, y: box.y + box.height },
    { x: box.x, y: box.y + part * box.height },
    { x: box.x + box.width, y: box.y + part * box.height },
  ];
  return STEPS.flatMap(along).map((point) => centred(point, width, LETTER_BOX));
}

const centred = ({ x, y }: Point, width: number, height: number): Box => ({
  x: x - width / 2,
  y: y - height / 2,
  width,
  height,
});

const middleOf = ({ x, y, width, height }: Box): Point => ({ x: x + width / 2, y: y + height / 2 });

function onBorder({ x, y }: Point, box: Box): boolean {
  const withinX = x > box.x - NEAR && x < box.x + box.width + NEAR;
  const withinY = y > box.y - NEAR && y < box.y + box.height + NEAR;
  const nearSide = Math.min(Math.abs(x - box.x), Math.abs(x - box.x - box.width)) < NEAR;
  const nearEnd = Math.min(Math.abs(y - box.y), Math.abs(y - box.y - box.height)) < NEAR;
  return (nearSide && withinY) || (nearEnd && withinX);
}

export interface Slant {
  readonly distance: Distance;
  readonly a: Point;
  readonly b: Point;
  readonly label: TextLine | null;
}

export function placedSlants(
  frame: Frame,
  distances: readonly Distance[],
  taken: readonly Box[],
): readonly Slant[] {
  const size = frame.paper.labelSize;
  const placed: Slant[] = [];
  for (const distance of distances) {
    const a = toPoint(frame, distance.from);
    const b = toPoint(frame, distance.to);
    const text = distanceText(distance);
    const labels = placed.flatMap(({ label }) => (label === null ? [] : [boxOf(label)]));
    const candidates = slantBoxes(a, b, textWidth(text, size) + 16, size + 3);
    const onPane = candidates.filter((box) => inside(box, frame.box));
    const free = firstFree(onPane, [...taken, ...labels]);
    placed.push({ distance, a, b, label: free === null ? null : textIn(text, free, size) });
  }
  return placed;
}

/** Near the area, where lines that start together have diverged. */
function slantBoxes(a: Point, b: Point, width: number, height: number): readonly Box[] {
  return [0, -13, 13, -25, 25].flatMap((off) =>
    [0.72, 0.6, 0.82, 0.5, 0.4, 0.3].map((part) =>
      centred({ x: a.x + part * (b.x - a.x), y: a.y + part * (b.y - a.y) + off }, width, height),
    ),
  );
}

/** Beside the damage, on whichever side has room; on the pane rather than across its edge. */
export function placedBeside(
  text: string,
  { x, y }: Point,
  clear: number,
  frame: Frame,
  taken: readonly Box[],
): TextLine | null {
  const size = LETTER_SIZE;
  const width = 1.08 * textWidth(text, size) + 2;
  const height = size + 2;
  const sides = [clear, clear + 14, clear + 28].flatMap((off) => [
    centred({ x, y: y - off - height / 2 }, width, height),
    centred({ x, y: y + off + height / 2 }, width, height),
    centred({ x: x + off + width / 2, y }, width, height),
    centred({ x: x - off - width / 2, y }, width, height),
    centred({ x: x + off + width / 2, y: y - off }, width, height),
    centred({ x: x - off - width / 2, y: y - off }, width, height),
    centred({ x: x + off + width / 2, y: y + off }, width, height),
    centred({ x: x - off - width / 2, y: y + off }, width, height),
  ]);
  const onPaper = sides.filter(
    (box) => box.x > MARGIN && box.x + box.width < frame.paper.width - MARGIN,
  );
  const onPane = sides.filter((box) => inside(box, frame.box));
  const free = firstFree([...onPane, ...onPaper], taken);
  return free === null ? null : { ...textIn(text, free, size), bold: true };
}

/** In the lowest free row above the pane; shifted inwards at the paper's sides. */
export function placedOver(
  wanted: readonly { readonly text: string; readonly x: number }[],
  { box, paper }: Frame,
): readonly TextLine[] {
  const size = paper.labelSize;
  const placed: TextLine[] = [];
  for (const { text, x } of wanted) {
    const half = textWidth(text, size) / 2 + 2;
    const inwards = Math.min(Math.max(x, MARGIN + half), paper.width - MARGIN - half);
    const free = [0, 1, 2]
      .map((row) => over(text, inwards, box.y - 6 - (size + 2) * row, size))
      .find((line) => !placed.some((one) => overlaps(boxOf(line), boxOf(one))));
    if (free !== undefined) placed.push(free);
  }
  return placed;
}

const over = (text: string, x: number, y: number, size: number): TextLine => ({
  text,
  x,
  y,
  size,
  anchor: 'middle',
});
