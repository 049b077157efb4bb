/**
 * Lines that run down the pane from a name above its upper edge, and the word at the driver's side.
 */
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import type { DrawingWords } from './drawing-words.ts';
import { type Frame, toPoint } from './frame.ts';

type CentreLineOf = 'wheel' | 'seat';

export interface CentreLine {
  readonly x: number;
  readonly of: CentreLineOf;
}

export function overTexts(
  sheet: IntakeSheet,
  frame: Frame,
  lines: readonly CentreLineOf[],
  { marks }: DrawingWords,
) {
  const { driverSide } = sheet.pane;
  const { x, width } = frame.box;
  return [
    ...centreLines(sheet, frame, lines).map((centre) => ({ text: marks[centre.of], x: centre.x })),
    ...(driverSide === 'unknown'
      ? []
      : [{ text: marks.driverSide, x: driverSide === 'left' ? x + 30 : x + width - 30 }]),
  ];
}

export function centreLines(
  { pane }: IntakeSheet,
  frame: Frame,
  lines: readonly CentreLineOf[],
): readonly CentreLine[] {
  return lines.flatMap((of) => {
    const xMm = pane[`${of}CentreMm`];
    return xMm === 'unknown' ? [] : [{ of, x: toPoint(frame, { xMm, yMm: 0 }).x }];
  });
}
