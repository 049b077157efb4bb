/**
 * Defines a question of the intake questionnaire: where its answer goes, how it is worded, what may
 * be answered and whether it is asked at all. The questions themselves are tables in the files
 * beside; the sheet's schema checks ranges.
 */
import type { IntakeSheet } from './intake-sheet.ts';

export type AnswerKind =
  | { readonly kind: 'choice'; readonly options: readonly Option[] }
  | { readonly kind: 'yes-no' }
  /** `none` is the wording of "there is none", an answer of its own. */
  | { readonly kind: 'number'; readonly unit: string; readonly none?: string }
  /** Four distances from left, right, top and bottom edge. */
  | { readonly kind: 'sides' }
  /** Two distances. */
  | { readonly kind: 'distances'; readonly names: readonly [string, string] }
  | { readonly kind: 'date' }
  | { readonly kind: 'text'; readonly mayBeEmpty: boolean }
  /** Any of the known rule sets, or none. */
  | { readonly kind: 'rule-sets' };

export interface Option {
  readonly value: string;
  readonly words: string;
}

export interface Question {
  /** Where in the sheet the answer goes. */
  readonly path: string;
  readonly ask: string;
  readonly help: string;
  readonly answer: AnswerKind;
  /** The sheet's answers by path, where one question stands for several. */
  readonly sets?: (answer: unknown) => Readonly<Record<string, unknown>>;
  /** What follows instead, when the sheet so far makes the question pointless. */
  readonly skip?: (sheet: IntakeSheet) => { readonly follows: unknown } | null;
}

/** Whether "don't know" is allowed; a sheet needs its name and day. */
export function mayBeUnknown({ answer }: Question): boolean {
  return answer.kind !== 'text' && answer.kind !== 'date' && answer.kind !== 'rule-sets';
}
