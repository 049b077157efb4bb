/**
 * Lays out the drawing: the positions of pane, areas, distances, words and the magnified damage, so
 * that no two texts overlap. The result is plain data, which tests measure; the components beside
 * draw it.
 */

import { filled } from '../../core/phrases.ts';
import type { RuleSet } from '../rules/rule-set.ts';
import { footprintOf } from '../sheet/footprint.ts';
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { type CentreLine, centreLines, overTexts } from './centre-lines.ts';
import { columnRoom, type DimensionLine, dimensionLines, rowsHeight } from './dimension-lines.ts';
import { type Circle, circleOf, distancesOf } from './distances.ts';
import { type DrawingWords, mmText } from './drawing-words.ts';
import { type Frame, frameOf, MARGIN, type Point, scaleOf, toBox, WHOLE_PAPER } from './frame.ts';
import { hatchedOf } from './hatched.ts';
import { notesOf } from './notes.ts';
import { placedOnPane } from './on-pane.ts';
import { type Letter, placedOver, type Slant } from './placed-labels.ts';
import { type Shape, shapesOf } from './shapes.ts';
import { type Box, wrapped } from './text-box.ts';
import { boxOf, type TextLine } from './text-line.ts';

/** Side of the square for the magnified damage, at the lower right. */
const INSET_SIDE = 184;
const INSET_FIGURE = 118;
const MOST_HATCHES = 4;
const { width: WIDTH, labelSize: LABEL_SIZE } = WHOLE_PAPER;
const INSET_X = WIDTH - MARGIN - INSET_SIDE;
const NOTE_SIZE = 9.5;
const NOTE_PITCH = 13;
/** Space between the samples of two areas. */
const SAMPLE_GAP = 3;
const SAMPLE = 44;
const SIZE_LINE_UP = 42;
const SIZE_LINE_LEFT = 18;

const LINES = ['wheel', 'seat'] as const;

export interface Sample {
  readonly letter: string;
  readonly box: Box;
}

export interface Layout {
  readonly frame: Frame;
  readonly height: number;
  readonly circle: Circle | null;
  readonly shapes: readonly (Shape & { readonly box: Box })[];
  /** Letters of the areas that are hatched. */
  readonly hatched: readonly string[];
  readonly letters: readonly Letter[];
  readonly dimensions: readonly DimensionLine[];
  readonly slants: readonly Slant[];
  readonly centreLines: readonly CentreLine[];
  readonly damageAt: Point | null;
  readonly finder: number;
  /** Dimensions of the pane itself, above and beside it. */
  readonly sizeLines: { readonly y: number; readonly x: number } | null;
  readonly samples: readonly Sample[];
  /** The magnified damage: its box, and its size in it. */
  readonly inset: { readonly box: Box; readonly figureSide: number };
  /** All words except the letters in their boxes. */
  readonly texts: readonly TextLine[];
}

export function layoutOf(
  sheet: IntakeSheet,
  ruleSets: readonly RuleSet[],
  words: DrawingWords,
): Layout {
  const shapes = shapesOf(sheet.pane, ruleSets, words);
  const circle = circleOf(footprintOf(sheet));
  const distances = circle === null ? [] : distancesOf(circle, sheet.pane, shapes.drawn, words);
  const frame = frameOf(sheet, columnRoom(distances), WHOLE_PAPER);
  const { lines, rows } = dimensionLines(frame, distances);
  const heads = headTexts(sheet, frame, words);
  const named = placedOver(overTexts(sheet, frame, LINES, words), frame);
  const labels = lines.map(({ label }) => label);
  const drawn = shapes.drawn.map((shape) => ({ ...shape, box: toBox(frame, shape.rect) }));
  const taken = [...heads, ...named, ...labels].map(boxOf);
  const onPane = placedOnPane(sheet, frame, { distances, borders: drawn, circle, taken, words });
  const notesTop = frame.box.y + frame.box.height + rowsHeight(rows) + 22;
  const notes = notesOf(sheet, ruleSets, shapes, circle, words);
  const list = noteTexts(notes, notesTop);
  const inset = { x: INSET_X, y: notesTop - 8, width: INSET_SIDE, height: INSET_SIDE };
  return {
    frame,
    height: Math.max(list.bottom, inset.y + inset.height) + MARGIN,
    circle,
    dimensions: lines,
    ...onPane,
    shapes: drawn,
    hatched: hatchedOf(drawn, frame.box, MOST_HATCHES),
    centreLines: centreLines(sheet, frame, LINES),
    sizeLines: { y: frame.box.y - SIZE_LINE_UP, x: frame.box.x - SIZE_LINE_LEFT },
    samples: list.samples,
    inset: { box: inset, figureSide: INSET_FIGURE },
    texts: [...heads, ...named, ...labels, ...onPane.texts, ...list.texts],
  };
}

function headTexts(
  { pane, reference }: IntakeSheet,
  frame: Frame,
  words: DrawingWords,
): readonly TextLine[] {
  const { box, widthKnown, heightKnown } = frame;
  const scale = String(Math.round(scaleOf(frame) * 10) / 10).replace('.', words.decimal);
  const toScale = widthKnown && heightKnown;
  const size = (what: string, mm: number | 'unknown'): string =>
    mm === 'unknown' ? filled(words.notKnown, { what }) : mmText(mm, words);
  return [
    line(filled(words.title, { reference }), MARGIN, 14, 11, true),
    line(toScale ? filled(words.toScale, { scale }) : words.notToScale, MARGIN, 27, LABEL_SIZE),
    {
      ...line(
        size(words.sizes.width, pane.widthMm),
        box.x + box.width / 2,
        box.y - SIZE_LINE_UP + 3,
      ),
      anchor: 'middle',
    },
    {
      ...line(
        size(words.sizes.height, pane.heightMm),
        box.x - SIZE_LINE_LEFT + 3,
        box.y + box.height / 2,
      ),
      anchor: 'middle',
      upright: true,
    },
  ];
}

const line = (text: string, x: number, y: number, size = LABEL_SIZE, bold = false): TextLine => ({
  text,
  x,
  y,
  size,
  anchor: 'start',
  bold,
});

interface Listed {
  readonly texts: readonly TextLine[];
  readonly samples: readonly Sample[];
  readonly bottom: number;
}

/** Stacked, left of the magnified damage and, below it, over the full width. */
function noteTexts(notes: ReturnType<typeof notesOf>, top: number): Listed {
  const texts: TextLine[] = [];
  const samples: Sample[] = [];
  let bottom = top - NOTE_PITCH;
  for (const { letter, text } of notes) {
    const x = MARGIN + (letter === null ? 0 : SAMPLE);
    const gap = letter === null ? 0 : SAMPLE_GAP;
    const first = bottom + NOTE_PITCH + gap;
    const lines = linesBeside(text, x, bottom, top + INSET_SIDE);
    texts.push(...lines.map((words, at) => line(words, x, first + at * NOTE_PITCH, NOTE_SIZE)));
    if (letter !== null) {
      const box = { x: MARGIN, y: first - 10.5, width: SAMPLE - 8, height: 14 };
      samples.push({ letter, box });
    }
    bottom += lines.length * NOTE_PITCH + 2 * gap;
  }
  return { texts, samples, bottom };
}

/** A note that begins beside the magnified damage keeps clear of it to its end. */
function linesBeside(text: string, x: number, top: number, insetBottom: number): readonly string[] {
  const right = top < insetBottom ? INSET_X - 12 : WIDTH - MARGIN;
  return wrapped(text, NOTE_SIZE, right - x);
}
