/**
 * Tables on paper: column widths follow the content, rows are never cut, and heads are repeated on
 * every page. Lists of fields are tables of two columns without heads.
 */
import type { FieldsBlock, TableBlock } from './blocks.ts';
import {
  INKS,
  LOOKS,
  type Pen,
  type TextLook,
  textHeightPt,
  textWidthPt,
  writeText,
} from './pdf-pen.ts';
import type { Piece } from './pdf-piece.ts';

const GAP_PT = 8;
const PAD_PT = 2;
const AFTER_PT = 8;
/** Share of the width for the labels of a list of fields, where the block states none. */
const LABEL_SHARE = 0.34;

export function tablePieces(pen: Pen, table: TableBlock, width: number): readonly Piece[] {
  const { heads, rows } = table;
  const widths = columnWidths(pen, table, width);
  const head = rowPiece(
    pen,
    heads,
    heads.map(() => LOOKS.head),
    widths,
    INKS.strongLine,
  );
  const body = rows.map((cells, index): Piece => {
    const piece = rowPiece(
      pen,
      cells,
      cells.map(() => LOOKS.cell),
      widths,
      INKS.line,
    );
    const last = index === rows.length - 1;
    return { ...piece, again: head, afterPt: last ? AFTER_PT * pen.scale : 0 };
  });
  return [{ ...head, withNext: true }, ...body];
}

export function fieldPieces(pen: Pen, fields: FieldsBlock, width: number): readonly Piece[] {
  const gap = GAP_PT * pen.scale;
  const labels = width * (fields.labelShare ?? LABEL_SHARE);
  const widths = [labels - gap, width - labels];
  const looks: readonly TextLook[] = [LOOKS.note, LOOKS.cell];
  return fields.rows.map((row, index): Piece => {
    const piece = rowPiece(pen, row, looks, widths, INKS.line);
    const last = index === fields.rows.length - 1;
    return { ...piece, afterPt: last ? AFTER_PT * pen.scale : 0 };
  });
}

function rowPiece(
  pen: Pen,
  cells: readonly string[],
  looks: readonly TextLook[],
  widths: readonly number[],
  line: string,
): Piece {
  const pad = PAD_PT * pen.scale;
  const gap = GAP_PT * pen.scale;
  const lookOf = (index: number): TextLook => looks[index] ?? LOOKS.cell;
  const heights = cells.map((cell, i) => textHeightPt(pen, cell, lookOf(i), widths[i] ?? 0));
  const heightPt = Math.max(...heights) + 2 * pad;
  const full = widths.reduce((sum, each) => sum + each + gap, -gap);
  return {
    heightPt,
    afterPt: 0,
    draw: (x, y) => {
      let at = x;
      cells.forEach((cell, i) => {
        const width = widths[i] ?? 0;
        writeText(pen, cell, lookOf(i), { x: at, y: y + pad, width });
        at += width + gap;
      });
      pen.pdf.moveTo(x, y + heightPt).lineTo(x + full, y + heightPt);
      pen.pdf.lineWidth(0.5).strokeColor(line).stroke();
    },
  };
}

/**
 * Each column gets its longest word; the remaining width goes to the columns with the most text.
 */
function columnWidths(pen: Pen, { heads, rows }: TableBlock, width: number): readonly number[] {
  const gaps = GAP_PT * pen.scale * (heads.length - 1);
  const room = width - gaps;
  const needs = heads.map((head, column) => {
    const cells = rows.map((cells) => cells[column] ?? '');
    const least = Math.max(
      ...wordsOf(head).map((word) => textWidthPt(pen, word, LOOKS.head)),
      ...cells.flatMap(wordsOf).map((word) => textWidthPt(pen, word, LOOKS.cell)),
    );
    const most = Math.max(
      textWidthPt(pen, head, LOOKS.head),
      ...cells.map((cell) => textWidthPt(pen, cell, LOOKS.cell)),
    );
    // A hair more, so that a text that was measured alone fits on its line.
    return { least: Math.min(least, room / 2) + 0.5, most: most + 0.5 };
  });
  const least = needs.reduce((sum, need) => sum + need.least, 0);
  const most = needs.reduce((sum, need) => sum + need.most, 0);
  if (most <= room) return needs.map((need) => need.most + (room - most) / needs.length);
  if (least >= room) return needs.map((need) => (need.least * room) / least);
  const share = (room - least) / (most - least);
  return needs.map((need) => need.least + (need.most - need.least) * share);
}

/** Non-breaking spaces keep their words together. */
const wordsOf = (text: string): readonly string[] => text.split(/[ \n]/);
