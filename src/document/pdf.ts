/**
 * Renders a page document as PDF: A4, with its own fonts embedded and every sheet numbered. The
 * same document and facts give the same bytes: nothing here reads the clock. A page that must fit
 * is set as large as possible, and its text also fits on Letter paper.
 */
import PDFDocument from 'pdfkit';
import type { PageDocument } from './blocks.ts';
import { LOOKS, mm, type PageFonts, type Pen, takeFonts, writeText } from './pdf-pen.ts';
import { drawFlow, drawStack, stackHeightPt } from './pdf-piece.ts';
import { piecesOf } from './pdf-pieces.ts';

const SHEET = { widthPt: 595.28, heightPt: 841.89 } as const;
const SIDE_PT = mm(14);
const WIDTH_PT = SHEET.widthPt - 2 * SIDE_PT;
/** Margins above and below; for one page, what Letter (279.4 mm) leaves around the same centre. */
const ENDS_PT = { flow: mm(15), 'one-page': mm(19) } as const;
const FOOT_PT = 12;
/** The mark stands in the margin, above the sheet's content. */
const MARK_PT = 14;

/** Sizes tried for a page that must fit, largest first. */
const LEAST_SCALE = 0.4;
const SCALE_STEP = 0.02;

export interface PdfFacts {
  readonly fonts: PageFonts;
  /** Includes CreationDate: pdfkit would otherwise take the time of day. */
  readonly info: Readonly<PDFKit.DocumentInfo>;
}

export interface RenderedPdf {
  readonly bytes: Uint8Array;
  /** The text size used: 1 as designed, less where a page had to fit. */
  readonly scale: number;
}

export async function renderPdf(page: PageDocument, facts: PdfFacts): Promise<RenderedPdf> {
  const pdf = openPdf(page, facts);
  const chunks: Uint8Array[] = [];
  const done = new Promise<void>((resolve, reject) => {
    pdf.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    pdf.on('end', resolve);
    pdf.on('error', reject);
  });
  const scale = page.fit === 'one-page' ? drawOnePage(pdf, page) : drawPages(pdf, page);
  numberSheets(pdf, page);
  pdf.end();
  await done;
  return { bytes: Buffer.concat(chunks), scale };
}

function openPdf({ language }: PageDocument, { fonts, info }: PdfFacts): PDFKit.PDFDocument {
  const pdf = new PDFDocument({
    size: [SHEET.widthPt, SHEET.heightPt],
    margin: 0,
    bufferPages: true,
    pdfVersion: '1.7',
    lang: language,
    displayTitle: true,
    // Disables pdfkit's default font. Naming one of ours here would open it again at every use.
    font: '',
    info: { ...info, Producer: 'Meniscus', Creator: 'Meniscus' },
  });
  takeFonts(pdf, fonts);
  return pdf;
}

const roomPt = (fit: PageDocument['fit']): number => SHEET.heightPt - 2 * ENDS_PT[fit] - FOOT_PT;

function fittingScale(pdf: PDFKit.PDFDocument, { blocks, fit }: PageDocument): number {
  for (let scale = 1; scale > LEAST_SCALE; scale -= SCALE_STEP) {
    if (stackHeightPt(piecesOf({ pdf, scale }, blocks, WIDTH_PT)) <= roomPt(fit)) return scale;
  }
  return LEAST_SCALE;
}

function drawOnePage(pdf: PDFKit.PDFDocument, page: PageDocument): number {
  const scale = fittingScale(pdf, page);
  drawStack(piecesOf({ pdf, scale }, page.blocks, WIDTH_PT), SIDE_PT, ENDS_PT['one-page']);
  return scale;
}

function drawPages(pdf: PDFKit.PDFDocument, { blocks }: PageDocument): number {
  drawFlow(piecesOf({ pdf, scale: 1 }, blocks, WIDTH_PT), {
    left: SIDE_PT,
    top: ENDS_PT.flow,
    bottom: ENDS_PT.flow + roomPt('flow'),
    turn: () => pdf.addPage(),
  });
  return 1;
}

function numberSheets(pdf: PDFKit.PDFDocument, { foot, fit, mark }: PageDocument): void {
  const { count } = pdf.bufferedPageRange();
  const y = SHEET.heightPt - ENDS_PT[fit] - LOOKS.foot.sizePt;
  for (let sheet = 0; sheet < count; sheet++) {
    pdf.switchToPage(sheet);
    const pen: Pen = { pdf, scale: 1 };
    const number = `${sheet + 1} / ${count}`;
    writeText(pen, foot, LOOKS.foot, { x: SIDE_PT, y, width: WIDTH_PT - 60 });
    if (mark !== undefined) {
      const head = {
        x: SIDE_PT,
        y: ENDS_PT[fit] - MARK_PT,
        width: WIDTH_PT,
        align: 'right',
      } as const;
      writeText(pen, mark, LOOKS.mark, head);
    }
    writeText(pen, number, LOOKS.foot, { x: SIDE_PT, y, width: WIDTH_PT, align: 'right' });
  }
}
