/**
 * Sets text on paper: fonts, sizes, inks, and substitutes for characters that the font lacks. All
 * sizes pass through one scale, so that a page that must fit can be set smaller as a whole.
 * `pdf-pieces.ts` decides what is written where.
 */
export interface PageFonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

export interface Pen {
  readonly pdf: PDFKit.PDFDocument;
  /** 1 is the designed size; less sets everything smaller. */
  readonly scale: number;
}

export interface TextLook {
  readonly font: 'regular' | 'bold';
  readonly sizePt: number;
  readonly ink: string;
}

export const INKS = {
  text: '#1b2430',
  quiet: '#4a5561',
  line: '#c3cad1',
  strongLine: '#7b8792',
  good: '#0a5f54',
  goodPaper: '#eaf5f2',
  caution: '#7a4b00',
  cautionPaper: '#fdf4e0',
  bad: '#8f1d1d',
  badPaper: '#fceeec',
} as const;

const look = (font: TextLook['font'], sizePt: number, ink: string = INKS.text): TextLook => ({
  font,
  sizePt,
  ink,
});

export const LOOKS = {
  title: look('bold', 17),
  section: look('bold', 12),
  part: look('bold', 10.5),
  body: look('regular', 9.5),
  strong: look('bold', 9.5),
  note: look('regular', 8.5, INKS.quiet),
  cell: look('regular', 8.5),
  head: look('bold', 8),
  tile: look('bold', 9),
  small: look('regular', 7.5, INKS.quiet),
  foot: look('regular', 7.5, INKS.quiet),
  mark: look('bold', 8, INKS.bad),
} as const;

/** The font's own line spacing is too wide. */
const LINE_GAP = -0.17;
/** Drawn for a character that the font lacks; the HTML page shows the character. */
export const LACKING = '□';

interface OpenFont {
  readonly hasGlyphForCodePoint: (code: number) => boolean;
}

/** The document's current font; missing from pdfkit's types. */
const fontOf = (pdf: PDFKit.PDFDocument): OpenFont =>
  (pdf as unknown as { readonly _font: { readonly font: OpenFont } })._font.font;

/**
 * Registers the fonts in a document under the names that all other code uses. Each document opens
 * them again: what a font remembers of one document's letters would spoil the text of the next.
 */
export function takeFonts(pdf: PDFKit.PDFDocument, { regular, bold }: PageFonts): void {
  pdf.registerFont('bold', Buffer.from(bold));
  pdf.registerFont('regular', Buffer.from(regular));
  pdf.font('regular');
}

/**
 * Removes control characters and marks characters that the font lacks; both would be drawn as
 * nothing.
 */
export function drawable(pdf: PDFKit.PDFDocument, text: string): string {
  if (/^[\x20-\x7e\u00a0-\u00ff\u2013\u2014\u2018\u2019\u201c\u201d]*$/.test(text)) return text;
  const font = fontOf(pdf);
  return Array.from(text.normalize('NFC'), (letter) => {
    if (letter === '\n') return letter;
    const code = letter.codePointAt(0) ?? 0;
    if (code < 0x20 || code === 0x7f) return ' ';
    return font.hasGlyphForCodePoint(code) ? letter : LACKING;
  }).join('');
}

function prepare({ pdf, scale }: Pen, { font, sizePt, ink }: TextLook, text: string) {
  pdf
    .font(font)
    .fontSize(sizePt * scale)
    .fillColor(ink);
  return { words: drawable(pdf, text), lineGap: LINE_GAP * sizePt * scale };
}

/** Height of a text set to this width; the height of one line where it is empty. */
export function textHeightPt(pen: Pen, text: string, look: TextLook, width: number): number {
  const { words, lineGap } = prepare(pen, look, text);
  return pen.pdf.heightOfString(words === '' ? ' ' : words, { width, lineGap });
}

export function textWidthPt(pen: Pen, text: string, look: TextLook): number {
  return pen.pdf.widthOfString(prepare(pen, look, text).words);
}

interface Place {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly align?: 'left' | 'center' | 'right';
}

export function writeText(pen: Pen, text: string, look: TextLook, place: Place): void {
  if (text === '') return;
  const { words, lineGap } = prepare(pen, look, text);
  const { x, y, width, align = 'left' } = place;
  pen.pdf.text(words, x, y, { width, lineGap, align });
}

export const mm = (millimetres: number): number => (millimetres * 72) / 25.4;
