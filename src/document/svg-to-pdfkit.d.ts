/** Types for the part of svg-to-pdfkit that is used here; the package brings none. */
declare module 'svg-to-pdfkit' {
  interface Options {
    readonly width: number;
    readonly height: number;
    /** Takes the drawing's own units as points. */
    readonly assumePt?: boolean;
    readonly preserveAspectRatio?: string;
    /** Name or file of the font for this family and style. */
    readonly fontCallback?: (family: string, bold: boolean, italic: boolean) => string;
    readonly warningCallback?: (words: string) => void;
  }
  function svgToPdf(
    document: PDFKit.PDFDocument,
    svg: string,
    x: number,
    y: number,
    options: Options,
  ): void;
  export = svgToPdf;
}
