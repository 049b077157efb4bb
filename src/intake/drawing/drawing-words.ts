/**
 * The words of the drawing, one file a language. Names of zones and rule sets are those of their
 * files.
 */
import english from '../../panel/catalogues/en/drawing.json' with { type: 'json' };

export type DrawingWords = typeof english;
export const ENGLISH_DRAWING: DrawingWords = english;

/** A tenth of a millimetre below ten millimetres, otherwise whole millimetres. */
export const mmText = (mm: number, { decimal }: DrawingWords): string =>
  String(mm < 10 ? Math.round(mm * 10) / 10 : Math.round(mm)).replace('.', decimal);
