/** A number somewhere inside a file as given, or null where there is none. */
import { valueAt } from '../settings.ts';

export function numberAt(file: unknown, ...path: readonly string[]): number | null {
  const found = valueAt(file, path);
  return typeof found === 'number' ? found : null;
}
