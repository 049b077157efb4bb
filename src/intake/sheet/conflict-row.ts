/**
 * One pair of answers that cannot both be true, as a table row, and the few comparisons used in
 * those tables. An unknown or absent answer contradicts nothing.
 */
import type { IntakeSheet } from './intake-sheet.ts';

export interface ConflictRow {
  /** Paths in the sheet; the second may be "today", which is passed in. */
  readonly between: readonly [string, string];
  /** Why both cannot be true; printed as written. */
  readonly why: string;
  readonly clash: (sheet: IntakeSheet, today: string) => boolean;
}

type Answer = number | string | boolean | null;

export const isNumber = (answer: unknown): answer is number => typeof answer === 'number';

/** Both are known numbers and the first is larger. */
export const over = (a: Answer, b: Answer): boolean => isNumber(a) && isNumber(b) && a > b;

export const sum = (...parts: readonly Answer[]): number | 'unknown' =>
  parts.every(isNumber) ? parts.reduce((total, part) => total + part, 0) : 'unknown';

export const isOneOf = (answer: Answer, words: readonly string[]): boolean =>
  typeof answer === 'string' && words.includes(answer);
