/**
 * What a question of the intake questionnaire is: where its answer goes, how it is put, what may be
 * answered and whether it is asked at all. The questions themselves are tables in the files beside;
 * whether an answer is in range is the sheet's schema to say.
 */
import type { IntakeSheet } from './intake-sheet.ts';

export type AnswerKind =
  | { readonly kind: 'choice'; readonly options: readonly Option[] }
  | { readonly kind: 'yes-no' }
  /** `none` are the words for "there is none", an answer of its own. */
  | { readonly kind: 'number'; readonly unit: string; readonly none?: string }
  /** Four distances from left, right, top and bottom edge. */
  | { readonly kind: 'sides' }
  | { readonly kind: 'date' }
  | { readonly kind: 'text'; readonly mayBeEmpty: boolean }
  /** Any of the rule sets that are known here, or none. */
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
  /** When the sheet so far makes the question pointless, what follows in its place. */
  readonly skip?: (sheet: IntakeSheet) => { readonly follows: unknown } | null;
}

/** Those a person can say "don't know" to; a sheet without a name or a day is no sheet. */
export function mayBeUnknown({ answer }: Question): boolean {
  return answer.kind !== 'text' && answer.kind !== 'date' && answer.kind !== 'rule-sets';
}
