/** A text, or a list, somewhere inside a file as given; null or empty where there is none. */
import { valueAt } from '../../settings.ts';

export function textAt(file: unknown, ...path: readonly string[]): string | null {
  const found = valueAt(file, path);
  return typeof found === 'string' ? found : null;
}

export function listAt(file: unknown, ...path: readonly string[]): readonly unknown[] {
  const found = valueAt(file, path);
  return Array.isArray(found) ? found : [];
}

export const isTrueAt = (file: unknown, ...path: readonly string[]): boolean =>
  valueAt(file, path) === true;
