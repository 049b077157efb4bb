/**
 * Position and scale of the pane on the paper, for the full drawing and its brief form. An unknown
 * size is drawn at a usual value with a broken edge; the drawing then states that it is not to
 * scale.
 */
import type { Rect } from '../sheet/area.ts';
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import type { PointMm } from './distances.ts';
import type { Box } from './text-box.ts';

/** Four units of the drawing are one millimetre of paper. */
export const UNITS_PER_PAPER_MM = 4;
export const MARGIN = 6;

/**
 * Only for the picture, where the answer is missing; larger where something known lies farther out.
 */
const USUAL_WIDTH_MM = 1400;
const USUAL_HEIGHT_MM = 800;
const BEYOND_MM = 150;

export interface Paper {
  readonly width: number;
  /** Kept free left of the pane and above it. */
  readonly left: number;
  readonly top: number;
  /** Greatest height of the pane. */
  readonly tallest: number;
  readonly labelSize: number;
  /** How far a distance's label may extend above the pane's upper edge. */
  readonly labelsOver: number;
}

export const WHOLE_PAPER: Paper = {
  width: 180 * UNITS_PER_PAPER_MM,
  left: 34,
  top: 78,
  tallest: 300,
  labelSize: 9,
  labelsOver: 40,
};

/** Half as wide, so that the same letters stay readable in half the space. */
export const BRIEF_PAPER: Paper = {
  width: 90 * UNITS_PER_PAPER_MM,
  left: MARGIN,
  top: 33,
  tallest: 160,
  labelSize: 10,
  labelsOver: 0,
};

export interface Frame {
  readonly paper: Paper;
  readonly box: Box;
  readonly unitsPerMm: number;
  readonly widthKnown: boolean;
  readonly heightKnown: boolean;
}

/** `rightRoom` is kept free beside the pane for distances. */
export function frameOf({ pane, place }: IntakeSheet, rightRoom: number, paper: Paper): Frame {
  const { widthMm, heightMm, wheelCentreMm, seatCentreMm } = pane;
  const across = [place.fromLeftMm, wheelCentreMm, seatCentreMm];
  const drawnWidthMm = drawnMm(widthMm, USUAL_WIDTH_MM, across);
  const drawnHeightMm = drawnMm(heightMm, USUAL_HEIGHT_MM, [place.fromTopMm]);
  const room = paper.width - paper.left - rightRoom - MARGIN;
  const unitsPerMm = Math.min(room / drawnWidthMm, paper.tallest / drawnHeightMm);
  const width = drawnWidthMm * unitsPerMm;
  return {
    paper,
    box: {
      x: paper.left + (room - width) / 2,
      y: paper.top,
      width,
      height: drawnHeightMm * unitsPerMm,
    },
    unitsPerMm,
    widthKnown: widthMm !== 'unknown',
    heightKnown: heightMm !== 'unknown',
  };
}

type Size = number | 'unknown';

function drawnMm(mm: Size, usualMm: number, onIt: readonly Size[]): number {
  if (mm !== 'unknown') return mm;
  return Math.max(usualMm, ...onIt.map((at) => (at === 'unknown' ? 0 : at + BEYOND_MM)));
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export const toPoint = ({ box, unitsPerMm }: Frame, { xMm, yMm }: PointMm): Point => ({
  x: box.x + xMm * unitsPerMm,
  y: box.y + yMm * unitsPerMm,
});

export function toBox(frame: Frame, rect: Rect): Box {
  const { x, y } = toPoint(frame, { xMm: rect.leftMm, yMm: rect.topMm });
  return {
    x,
    y,
    width: (rect.rightMm - rect.leftMm) * frame.unitsPerMm,
    height: (rect.bottomMm - rect.topMm) * frame.unitsPerMm,
  };
}

/** The scale: millimetres of glass per millimetre of paper. */
export const scaleOf = ({ unitsPerMm }: Frame): number => UNITS_PER_PAPER_MM / unitsPerMm;
