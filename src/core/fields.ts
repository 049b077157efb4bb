/** Reads single fields from a file as given, which may be incomplete. */
import { valueAt } from './settings.ts';

/** Null where there is no number. */
export function numberAt(file: unknown, ...path: readonly string[]): number | null {
  const found = valueAt(file, path);
  return typeof found === 'number' ? found : null;
}

/** Null where there is no text. */
export function textAt(file: unknown, ...path: readonly string[]): string | null {
  const found = valueAt(file, path);
  return typeof found === 'string' ? found : null;
}

/** Empty where there is no list. */
export function listAt(file: unknown, ...path: readonly string[]): readonly unknown[] {
  const found = valueAt(file, path);
  return Array.isArray(found) ? found : [];
}

export const isTrueAt = (file: unknown, ...path: readonly string[]): boolean =>
  valueAt(file, path) === true;

/** The answer at a dotted path of an intake sheet. */
export const answerAt = (sheet: unknown, path: string): unknown => valueAt(sheet, path.split('.'));
