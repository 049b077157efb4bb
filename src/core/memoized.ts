/**
 * Computes values that depend only on a job's settings once, not every tick. The cache hangs on the
 * settings object itself, so it is correct as long as settings are never changed in place.
 */
export function memoized<K extends object, V>(compute: (key: K) => V): (key: K) => V {
  const known = new WeakMap<K, V>();
  return (key) => {
    const before = known.get(key);
    if (before !== undefined) return before;
    const value = compute(key);
    known.set(key, value);
    return value;
  };
}
