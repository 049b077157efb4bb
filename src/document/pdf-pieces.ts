/**
 * Turns a block into its pieces on paper, with one maker for each kind. Nothing is drawn until the
 * page is laid out, so that the same pieces also give the height of a page.
 */
import type { Block, Grade } from './blocks.ts';
import { GRADE_MARKS } from './blocks.ts';
import { figurePiece, photoPiece } from './pdf-figure.ts';
import { INKS, LOOKS, mm, type Pen, type TextLook, textHeightPt, writeText } from './pdf-pen.ts';
import { drawStack, type Piece, stackHeightPt } from './pdf-piece.ts';
import { fieldPieces, tablePieces } from './pdf-table.ts';

type Of<K extends Block['kind']> = Extract<Block, { readonly kind: K }>;
type Maker<K extends Block['kind']> = (pen: Pen, block: Of<K>, width: number) => readonly Piece[];

const MAKERS: { readonly [K in Block['kind']]: Maker<K> } = {
  heading: (pen, { level, text }, width) => headingPieces(pen, level, text, width),
  paragraph: (pen, { text, look }, width) => [
    textPiece(pen, text, look === 'note' ? LOOKS.note : LOOKS.body, width, 4),
  ],
  list: (pen, { items }, width) => items.map((item) => itemPiece(pen, item, width)),
  banner: (pen, { text }, width) => [bannerPiece(pen, text, width)],
  notice: (pen, block, width) => [noticePiece(pen, block, width)],
  tiles: (pen, block, width) => [tilesPiece(pen, block, width)],
  fields: (pen, block, width) => listed(pen, block, width, () => fieldPieces(pen, block, width)),
  table: (pen, block, width) => listed(pen, block, width, () => tablePieces(pen, block, width)),
  figure: (pen, block, width) => {
    const figure = figurePiece(pen, block, width);
    if (block.caption === undefined) return [figure];
    return [{ ...figure, withNext: true }, textPiece(pen, block.caption, LOOKS.note, width, 10)];
  },
  photo: (pen, block, width) => [
    { ...photoPiece(pen, block, width), withNext: true },
    textPiece(pen, block.caption, LOOKS.small, width, 4),
  ],
  columns: (pen, block, width) => [columnsPiece(pen, block, width)],
  signatures: (pen, { labels }, width) => [signaturesPiece(pen, labels, width)],
  'page-break': () => [{ heightPt: 0, afterPt: 0, draw: () => undefined, turnsPage: true }],
};

export const piecesOf = (pen: Pen, blocks: readonly Block[], width: number): readonly Piece[] =>
  blocks.flatMap((block) => pieceMaker(block.kind)(pen, block, width));

/** The table holds the matching maker for each kind, which its type cannot express for a union. */
const pieceMaker = (kind: Block['kind']) =>
  MAKERS[kind] as (pen: Pen, block: Block, width: number) => readonly Piece[];

function textPiece(pen: Pen, text: string, look: TextLook, width: number, after: number): Piece {
  return {
    heightPt: textHeightPt(pen, text, look, width),
    afterPt: after * pen.scale,
    draw: (x, y) => writeText(pen, text, look, { x, y, width }),
  };
}

function headingPieces(pen: Pen, level: 1 | 2 | 3, text: string, width: number): readonly Piece[] {
  const look = { 1: LOOKS.title, 2: LOOKS.section, 3: LOOKS.part }[level];
  const before = { 1: 0, 2: 9, 3: 4 }[level] * pen.scale;
  const words = textHeightPt(pen, text, look, width);
  const rule = level === 2 ? 1.5 : 0;
  return [
    {
      heightPt: before + words + rule,
      afterPt: 4 * pen.scale,
      withNext: true,
      draw: (x, y) => {
        writeText(pen, text, look, { x, y: y + before, width });
        if (rule === 0) return;
        const at = y + before + words + rule;
        pen.pdf
          .moveTo(x, at)
          .lineTo(x + width, at)
          .lineWidth(1)
          .strokeColor(INKS.text)
          .stroke();
      },
    },
  ];
}

function itemPiece(pen: Pen, text: string, width: number): Piece {
  const indent = 9 * pen.scale;
  const piece = textPiece(pen, text, LOOKS.body, width - indent, 2);
  return {
    ...piece,
    draw: (x, y) => {
      writeText(pen, '•', LOOKS.body, { x, y, width: indent });
      piece.draw(x + indent, y);
    },
  };
}

interface Listed {
  readonly caption?: string;
  readonly rows: readonly unknown[];
  readonly empty: string;
}

function listed(
  pen: Pen,
  { caption, rows, empty }: Listed,
  width: number,
  pieces: () => readonly Piece[],
): readonly Piece[] {
  if (rows.length === 0) return empty === '' ? [] : [textPiece(pen, empty, LOOKS.body, width, 6)];
  if (caption === undefined) return pieces();
  return [{ ...textPiece(pen, caption, LOOKS.note, width, 2), withNext: true }, ...pieces()];
}

function bannerPiece(pen: Pen, text: string, width: number): Piece {
  const pad = 5 * pen.scale;
  const inner = width - 2 * pad;
  const heightPt = textHeightPt(pen, text, LOOKS.strong, inner) + 2 * pad;
  return {
    heightPt,
    afterPt: 6 * pen.scale,
    draw: (x, y) => {
      pen.pdf.rect(x, y, width, heightPt).dash(4, { space: 2 }).lineWidth(1.2);
      pen.pdf.strokeColor(INKS.text).stroke().undash();
      writeText(pen, text, LOOKS.strong, { x: x + pad, y: y + pad, width: inner });
    },
  };
}

const PAPERS: Readonly<Record<Grade, string>> = {
  good: INKS.goodPaper,
  caution: INKS.cautionPaper,
  bad: INKS.badPaper,
};

function noticePiece(pen: Pen, notice: Of<'notice'>, width: number): Piece {
  const { grade, title, lines, notes } = notice;
  const pad = 6 * pen.scale;
  const markWidth = 26 * pen.scale;
  const inner = width - markWidth - 2 * pad;
  const ink = INKS[grade];
  const parts = [
    textPiece(pen, title, { ...LOOKS.section, ink }, inner, 2),
    ...lines.map((line) => textPiece(pen, line, LOOKS.body, inner, 2)),
    ...notes.map((note) => textPiece(pen, note, LOOKS.note, inner, 1)),
  ];
  const heightPt = stackHeightPt(parts) + 2 * pad;
  return {
    heightPt,
    afterPt: 6 * pen.scale,
    draw: (x, y) => {
      pen.pdf.rect(x, y, width, heightPt).lineWidth(1).fillAndStroke(PAPERS[grade], ink);
      pen.pdf.rect(x, y, 4, heightPt).fill(ink);
      const mark: TextLook = { font: 'bold', sizePt: 20, ink };
      const place = { x: x + 4, y: y + pad - 2, width: markWidth, align: 'center' as const };
      writeText(pen, GRADE_MARKS[grade], mark, place);
      drawStack(parts, x + markWidth + pad, y + pad);
    },
  };
}

function tilesPiece(pen: Pen, { tiles }: Of<'tiles'>, width: number): Piece {
  const gap = 5 * pen.scale;
  const pad = 4 * pen.scale;
  const each = (width - gap * (tiles.length - 1)) / tiles.length;
  const stacks = tiles.map(({ label, value, notes }) => [
    textPiece(pen, label, LOOKS.small, each - 2 * pad, 0),
    textPiece(pen, value, LOOKS.tile, each - 2 * pad, 0),
    ...notes.map((note) => textPiece(pen, note, LOOKS.small, each - 2 * pad, 0)),
  ]);
  const heightPt = Math.max(...stacks.map(stackHeightPt)) + 2 * pad;
  return {
    heightPt,
    afterPt: 6 * pen.scale,
    draw: (x, y) =>
      stacks.forEach((stack, index) => {
        const left = x + index * (each + gap);
        pen.pdf.rect(left, y, each, heightPt).lineWidth(0.6).strokeColor(INKS.strongLine).stroke();
        drawStack(stack, left + pad, y + pad);
      }),
  };
}

function columnsPiece(pen: Pen, { columns }: Of<'columns'>, width: number): Piece {
  const gap = 12 * pen.scale;
  const room = width - gap * (columns.length - 1);
  const stacks = columns.map(({ share, blocks }) => piecesOf(pen, blocks, room * share));
  return {
    heightPt: Math.max(...stacks.map(stackHeightPt)),
    afterPt: 2 * pen.scale,
    draw: (x, y) => {
      let left = x;
      stacks.forEach((stack, index) => {
        drawStack(stack, left, y);
        left += room * (columns[index]?.share ?? 0) + gap;
      });
    },
  };
}

function signaturesPiece(pen: Pen, labels: readonly string[], width: number): Piece {
  const gap = 18 * pen.scale;
  const room = mm(9) * pen.scale;
  const each = (width - gap * (labels.length - 1)) / labels.length;
  const heights = labels.map((label) => textHeightPt(pen, label, LOOKS.small, each));
  return {
    heightPt: room + Math.max(...heights),
    afterPt: 2 * pen.scale,
    draw: (x, y) =>
      labels.forEach((label, index) => {
        const left = x + index * (each + gap);
        pen.pdf
          .moveTo(left, y + room)
          .lineTo(left + each, y + room)
          .lineWidth(0.7);
        pen.pdf.strokeColor(INKS.text).stroke();
        writeText(pen, label, LOOKS.small, { x: left, y: y + room + 1, width: each });
      }),
  };
}
