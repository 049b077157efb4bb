/**
 * A page as plain data: what a certificate or report is made of before anybody decides how it looks.
 * Two renderers draw it, `html.tsx` and `pdf.ts`; both show every block, in order, and leave none out.
 * Texts are plain text. Which blocks a page has is left to `certificate.ts` and `report-document.ts`.
 */

export type Grade = 'good' | 'caution' | 'bad';
/** Said with the colour of a grade, so that no grade is told by colour alone. */
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
  /** Said where there are no rows: an empty table leaves open whether anything is missing. */
  readonly empty: string;
  /** Too wide for a narrow screen: there each row becomes a list of its cells with their heads. */
  readonly wide?: boolean;
}

export interface FieldsBlock {
  readonly kind: 'fields';
  readonly caption?: string;
  readonly rows: readonly (readonly [label: string, value: string])[];
  readonly empty: string;
  /** Share of the width that the labels take. */
  readonly labelShare?: number;
}

export interface FigureBlock {
  readonly kind: 'figure';
  /** Unique in its page. */
  readonly id: string;
  /** A whole SVG element with a viewBox, drawn with plain attributes. */
  readonly svg: string;
  readonly title: string;
  /** What somebody who cannot see it needs to know. */
  readonly description: string;
  readonly caption?: string;
  /** The greatest height on paper; the width of the column where there is none. */
  readonly highestMm?: number;
  /** Drawn elsewhere: shown as a picture of its own, whose ids and styles stay its own. */
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
  /** Of the width; all shares of a row of columns add up to 1. */
  readonly share: number;
  readonly blocks: readonly Block[];
}

export type Block =
  | { readonly kind: 'heading'; readonly level: 1 | 2 | 3; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string; readonly look?: 'plain' | 'note' }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** What must be seen before anything else is read. */
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
  /** Lines to write on, each with what belongs there. */
  | { readonly kind: 'signatures'; readonly labels: readonly string[] }
  | { readonly kind: 'page-break' };

export interface PageDocument {
  readonly title: string;
  /** BCP 47. */
  readonly language: string;
  /** One page takes whatever size of letters makes it fit; a flow takes as many pages as it needs. */
  readonly fit: 'one-page' | 'flow';
  /** At the foot of every sheet of paper, so that a loose sheet can be told. */
  readonly foot: string;
  /** At the head of every sheet, and always in sight on a screen: what must not be missed. */
  readonly mark?: string;
  readonly blocks: readonly Block[];
}

/** For builders whose parts may be absent. */
export const blocksOf = (...blocks: readonly (Block | null)[]): readonly Block[] =>
  blocks.filter((block) => block !== null);
