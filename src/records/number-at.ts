/** A number somewhere inside a file as given, or null where there is none. */
export function numberAt(file: unknown, ...path: readonly string[]): number | null {
  const found = path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null
        ? (value as Readonly<Record<string, unknown>>)[key]
        : undefined,
    file,
  );
  return typeof found === 'number' ? found : null;
}
