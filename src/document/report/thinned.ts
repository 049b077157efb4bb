/**
 * Reduces a trace to fewer points without changing its look: each slice of the drawing's width
 * keeps its first, lowest, highest and last point, so that no peak is lost. Gaps stay gaps.
 */
interface Drawn {
  readonly x: number;
  readonly y: number | null;
}

/** Four points a slice make about a thousand over the whole width. */
const SLICES = 250;
const WORTH_IT = 4 * SLICES;

export function thinned<T extends Drawn>(points: readonly T[]): readonly T[] {
  const [first, last] = [points[0], points.at(-1)];
  if (points.length <= WORTH_IT || first === undefined || last === undefined) return points;
  const perSlice = (last.x - first.x) / SLICES;
  const kept: T[] = [];
  let slice: T[] = [];
  let number = 0;
  for (const point of points) {
    const own = Math.min(SLICES - 1, Math.floor((point.x - first.x) / perSlice));
    // A gap ends a slice, so that the trace is not drawn across it.
    if (own !== number || (point.y === null) !== (slice[0]?.y === null)) {
      kept.push(...worthDrawing(slice));
      slice = [];
      number = own;
    }
    slice.push(point);
  }
  return [...kept, ...worthDrawing(slice)];
}

function worthDrawing<T extends Drawn>(slice: readonly T[]): readonly T[] {
  if (slice.length <= 4) return slice;
  const places = slice.map((_, index) => index);
  const height = (index: number): number => slice[index]?.y ?? 0;
  const lowest = places.reduce((a, b) => (height(b) < height(a) ? b : a));
  const highest = places.reduce((a, b) => (height(b) > height(a) ? b : a));
  const chosen = new Set([0, lowest, highest, slice.length - 1]);
  return slice.filter((_, index) => chosen.has(index));
}
