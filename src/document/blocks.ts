/**
 * A page as plain data: the content of a certificate or report, without its looks. Two renderers
 * draw it, `html.tsx` and `pdf.ts`; both show every block, in order. Texts are plain text.
 * `certificate.ts` and `report-document.ts` decide which blocks a page has.
 */

export type Grade = 'good' | 'caution' | 'bad';
/** Printed with the colour of a grade, so that colour is never the only sign (WCAG 2.2, 1.4.1). */
export const GRADE_MARKS: Readonly<Record<Grade, string>> = { good: '✓', caution: '!', bad: '✗' };

export interface Tile {
  readonly label: string;
  readonly value: string;
  readonly notes: readonly string[];
}

export interface TableBlock {
  readonly kind: 'table';
  readonly caption?: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /**
   * Printed where there are no rows: an empty table would leave open whether anything is missing.
   */
  readonly empty: string;
  /**
   * Too wide for a narrow screen: there each row becomes a list of cells, each with its column
   * head.
   */
  readonly wide?: boolean;
}

export interface FieldsBlock {
  readonly kind: 'fields';
  readonly caption?: string;
  readonly rows: readonly (readonly [label: string, value: string])[];
  readonly empty: string;
  /** Share of the width for the labels. */
  readonly labelShare?: number;
}

export interface FigureBlock {
  readonly kind: 'figure';
  /** Unique within its page. */
  readonly id: string;
  /** A complete SVG element with a viewBox, drawn with plain attributes. */
  readonly svg: string;
  readonly title: string;
  /** The content of the figure for a reader who cannot see it. */
  readonly description: string;
  readonly caption?: string;
  /** The greatest height on paper; where absent, the width of the column decides. */
  readonly highestMm?: number;
  /** Drawn elsewhere: embedded as an image of its own, so that its ids and styles stay separate. */
  readonly foreign?: boolean;
}

export interface PhotoBlock {
  readonly kind: 'photo';
  readonly bytes: Uint8Array;
  readonly type: 'image/jpeg' | 'image/png';
  readonly description: string;
  readonly caption: string;
  readonly highestMm: number;
}

export interface Column {
  /** Share of the width; the shares of a row of columns add up to 1. */
  readonly share: number;
  readonly blocks: readonly Block[];
}

export type Block =
  | { readonly kind: 'heading'; readonly level: 1 | 2 | 3; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string; readonly look?: 'plain' | 'note' }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Must be seen before anything else is read. */
  | { readonly kind: 'banner'; readonly text: string }
  | {
      readonly kind: 'notice';
      readonly grade: Grade;
      readonly title: string;
      readonly lines: readonly string[];
      readonly notes: readonly string[];
    }
  | { readonly kind: 'tiles'; readonly tiles: readonly Tile[] }
  | FieldsBlock
  | TableBlock
  | FigureBlock
  | PhotoBlock
  | { readonly kind: 'columns'; readonly columns: readonly Column[] }
  /** Lines to write on, each with its label. */
  | { readonly kind: 'signatures'; readonly labels: readonly string[] }
  | { readonly kind: 'page-break' };

export interface PageDocument {
  readonly title: string;
  /** BCP 47. */
  readonly language: string;
  /** `one-page` reduces the text size until the page fits; `flow` takes as many pages as needed. */
  readonly fit: 'one-page' | 'flow';
  /** At the foot of every sheet, so that a loose sheet can be identified. */
  readonly foot: string;
  /**
   * At the head of every sheet, and always in view on a screen: a warning that must not be missed.
   */
  readonly mark?: string;
  readonly blocks: readonly Block[];
}

/** For builders whose parts may be absent. */
export const blocksOf = (...blocks: readonly (Block | null)[]): readonly Block[] =>
  blocks.filter((block) => block !== null);
