/**
 * Layout of the drawing's brief form for the certificate, where the full drawing would be too small
 * to read: half as wide on paper, with letters of the same size. It shows pane, driver's side,
 * wheel centre line, areas, damage, the distances to two edges and to the wheel, and the damage
 * magnified.
 */

import type { RuleSet } from '../rules/rule-set.ts';
import { footprintOf } from '../sheet/footprint.ts';
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { briefTexts, lettersText, listed } from './brief-words.ts';
import { centreLines, overTexts } from './centre-lines.ts';
import {
  columnRoom,
  dimensionLines,
  distanceText,
  isUpright,
  rowsHeight,
} from './dimension-lines.ts';
import { type Circle, circleOf, type Distance, distancesOf } from './distances.ts';
import type { DrawingWords } from './drawing-words.ts';
import { BRIEF_PAPER, type Frame, frameOf, MARGIN, toBox } from './frame.ts';
import { hatchedOf } from './hatched.ts';
import type { Layout } from './layout.ts';
import { placedOnPane } from './on-pane.ts';
import { placedOver } from './placed-labels.ts';
import { type Shape, shapesOf } from './shapes.ts';
import { type Box, textWidth, wrapped } from './text-box.ts';
import { boxOf, type TextLine } from './text-line.ts';

const { width: WIDTH, labelSize: SIZE } = BRIEF_PAPER;
const LINES = ['wheel'] as const;
const INSET = { width: 120, height: 84 } as const;
const INSET_FIGURE = 46;
const MOST_HATCHES = 3;
const INSET_X = WIDTH - MARGIN - INSET.width;
const PITCH = 13;
/** Sides of areas closer together than this cannot be distinguished on paper. */
const APART = 6;

export function briefLayoutOf(
  sheet: IntakeSheet,
  ruleSets: readonly RuleSet[],
  words: DrawingWords,
): Layout {
  const shapes = shapesOf(sheet.pane, ruleSets, words).drawn;
  const circle = circleOf(footprintOf(sheet));
  const measured = circle === null ? [] : distancesOf(circle, sheet.pane, [], words);
  const frame = frameOf(sheet, columnRoom(measured), BRIEF_PAPER);
  const distances = measured.map((distance) => shortened(distance, frame));
  const { lines, rows } = dimensionLines(frame, distances);
  const named = placedOver(overTexts(sheet, frame, LINES, words), frame);
  const labels = lines.map(({ label }) => label);
  const drawn = shapes.map((shape) => ({ ...shape, box: toBox(frame, shape.rect) }));
  const groups = grouped(drawn);
  const taken = [...named, ...labels].map(boxOf);
  const borders = groups.map(({ letters, box }) => ({ letter: listed(letters), box }));
  const onPane = placedOnPane(sheet, frame, { distances, borders, circle, taken, words });
  const insetY = frame.box.y + frame.box.height + Math.max(10, rowsHeight(rows) - 4);
  const beside = textsBeside(sheet, circle, shapes, insetY, words);
  const bottom = Math.max(insetY + INSET.height, ...beside.map(({ y }) => y));
  return {
    frame,
    height: bottom + MARGIN,
    circle,
    dimensions: lines,
    ...onPane,
    shapes: drawn,
    hatched: hatchedOf(
      groups.map(({ letters, box }) => ({ letter: letters[0], box })),
      frame.box,
      MOST_HATCHES,
    ),
    centreLines: centreLines(sheet, frame, LINES),
    sizeLines: null,
    samples: [],
    inset: { box: { x: INSET_X, y: insetY, ...INSET }, figureSide: INSET_FIGURE },
    texts: [...named, ...labels, ...onPane.texts, ...beside],
  };
}

/** Only the number, beside a pane too low for the words; the arrow shows the edge. */
function shortened(distance: Distance, { box, paper }: Frame): Distance {
  const words = textWidth(distanceText(distance), paper.labelSize);
  return isUpright(distance) && words > box.height / 2 - MARGIN
    ? { ...distance, label: '' }
    : distance;
}

interface Group {
  readonly letters: readonly [string, ...string[]];
  readonly box: Box;
}

/** Areas that look alike on paper are hatched once and share one box for their letters. */
function grouped(shapes: readonly (Shape & { readonly box: Box })[]): readonly Group[] {
  const groups: Group[] = [];
  for (const { letter, box } of shapes) {
    const at = groups.findIndex((group) => alike(group.box, box));
    const group = groups[at];
    if (group === undefined) groups.push({ letters: [letter], box });
    else groups[at] = { ...group, letters: [...group.letters, letter] };
  }
  return groups;
}

const alike = (a: Box, b: Box): boolean =>
  [a.x - b.x, a.y - b.y, a.x + a.width - b.x - b.width, a.y + a.height - b.y - b.height].every(
    (off) => Math.abs(off) < APART,
  );

/**
 * Left of the magnified damage. The meaning of the letters is printed only where the text ends no
 * lower than that.
 */
function textsBeside(
  sheet: IntakeSheet,
  circle: Circle | null,
  shapes: readonly Shape[],
  top: number,
  words: DrawingWords,
): readonly TextLine[] {
  const plain = briefTexts(sheet, circle, words);
  const letters = lettersText(shapes, words);
  const linesOf = (texts: readonly string[]): readonly string[] =>
    texts.flatMap((text) => wrapped(text, SIZE, INSET_X - 2 * MARGIN - 6));
  const most = Math.floor(INSET.height / PITCH);
  const whole = letters === null ? plain : [...plain, letters];
  const fits = letters === null || linesOf(whole).length <= most;
  return linesOf(fits ? whole : [...plain, words.brief.lettersElsewhere]).map((text, at) => ({
    text,
    x: MARGIN,
    y: top + 0.8 * SIZE + at * PITCH,
    size: SIZE,
    anchor: 'start',
  }));
}
