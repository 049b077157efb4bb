/** A text, or a list, somewhere inside a file as given; null or empty where there is none. */
const valueAt = (file: unknown, path: readonly string[]): unknown =>
  path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null
        ? (value as Readonly<Record<string, unknown>>)[key]
        : undefined,
    file,
  );

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
