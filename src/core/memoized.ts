/**
 * What follows from a job's settings alone is reckoned once and not every tick. The cache hangs on
 * the settings object itself, so it is right for as long as settings are never changed in place.
 */
export function onceForEach<K extends object, V>(reckon: (key: K) => V): (key: K) => V {
  const known = new WeakMap<K, V>();
  return (key) => {
    const before = known.get(key);
    if (before !== undefined) return before;
    const value = reckon(key);
    known.set(key, value);
    return value;
  };
}
