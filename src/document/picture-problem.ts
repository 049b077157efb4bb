/**
 * Whether a page can use a picture. It is checked before anything is written, so that the faulty
 * file can be named.
 */
import PDFDocument from 'pdfkit';

/** What pdfkit knows about an opened picture; its types leave out the orientation. */
interface OpenPicture {
  readonly width: number;
  readonly height: number;
  /** Exif 2.3, tag 0x0112. */
  readonly orientation?: number;
}

interface PictureOpener {
  readonly openImage: (bytes: Buffer) => OpenPicture;
}

export const openPicture = (pdf: PDFKit.PDFDocument, bytes: Uint8Array): OpenPicture =>
  (pdf as unknown as PictureOpener).openImage(Buffer.from(bytes));

/** Null where the picture can be used. */
export function pictureProblem(bytes: Uint8Array): string | null {
  try {
    const { width, height } = openPicture(new PDFDocument({ font: '' }), bytes);
    return width > 0 && height > 0 ? null : 'of no size';
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
