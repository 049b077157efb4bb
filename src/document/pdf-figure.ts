/** Places drawings and photographs on paper at a suitable size without distorting them. */
import svgToPdf from 'svg-to-pdfkit';
import type { FigureBlock, PhotoBlock } from './blocks.ts';
import { mm, type Pen } from './pdf-pen.ts';
import type { Piece } from './pdf-piece.ts';
import { openPicture } from './picture-problem.ts';
import { viewBoxOf } from './view-box.ts';

const AFTER_PT = 4;
/** A drawing with few units is a small one, and would look coarse across the whole width. */
const SMALL_UNITS = 600;
const SMALL_SHARE = 0.72;

export function figurePiece(pen: Pen, figure: FigureBlock, width: number): Piece {
  const box = viewBoxOf(figure.svg);
  const small =
    box.width < SMALL_UNITS && figure.foreign !== true && figure.highestMm === undefined;
  const highest =
    figure.highestMm === undefined ? Number.POSITIVE_INFINITY : mm(figure.highestMm) * pen.scale;
  const size = fitted(box, width * (small ? SMALL_SHARE : 1), highest);
  return {
    heightPt: size.height,
    afterPt: AFTER_PT * pen.scale,
    draw: (x, y) =>
      svgToPdf(pen.pdf, figure.svg, x, y, {
        ...size,
        assumePt: true,
        preserveAspectRatio: 'xMinYMin meet',
        fontCallback: (_family, bold) => (bold ? 'bold' : 'regular'),
        // A part that the PDF cannot draw is left out; the HTML page has it.
        warningCallback: () => undefined,
      }),
  };
}

export function photoPiece(pen: Pen, { bytes, highestMm }: PhotoBlock, width: number): Piece {
  const { pdf } = pen;
  const opened = openPicture(pdf, bytes);
  // Orientations above 4 are rotated by 90 degrees (Exif 2.3, tag 0x0112).
  const lies = (opened.orientation ?? 1) > 4;
  const box = lies ? { width: opened.height, height: opened.width } : opened;
  const size = fitted(box, width, mm(highestMm) * pen.scale);
  return {
    heightPt: size.height,
    afterPt: 2 * pen.scale,
    draw: (x, y) => {
      // The types allow only paths and bytes, although an opened picture is accepted too.
      pdf.image(opened as unknown as string, x, y, size);
    },
  };
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** As large as fits within these bounds, with its own aspect ratio. */
function fitted(box: Size, width: number, height: number): Size {
  const factor = Math.min(width / box.width, height / box.height);
  return { width: box.width * factor, height: box.height * factor };
}
