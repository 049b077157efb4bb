import fc from 'fast-check';
import { expect, test } from 'vitest';
import { thinned } from '../../../src/document/report/thinned.ts';

/** Long enough to be thinned, with gaps of one point and more. */
const heights = fc.array(fc.option(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), { freq: 40 }), {
  minLength: 1500,
  maxLength: 6000,
  size: 'max',
});

const runsOf = (points: readonly { readonly y: number | null }[]): number =>
  points.filter(({ y }, i) => y !== null && (points[i - 1]?.y ?? null) === null).length;

test('a thinned trace keeps its ends, its order, its highest and its lowest point', () => {
  fc.assert(
    fc.property(heights, (ys) => {
      const points = ys.map((y, x) => ({ x, y }));
      const kept = thinned(points);
      const most = (list: typeof points) => list.reduce((a, { y }) => Math.max(a, y ?? a), -1e9);
      const least = (list: typeof points) => list.reduce((a, { y }) => Math.min(a, y ?? a), 1e9);
      expect(most([...kept])).toBe(most(points));
      expect(least([...kept])).toBe(least(points));
      expect([kept[0], kept.at(-1)]).toEqual([points[0], points.at(-1)]);
      expect(kept.every((point, i) => i === 0 || point.x > (kept[i - 1]?.x ?? 0))).toBe(true);
      expect(runsOf(kept)).toBe(runsOf(points));
    }),
    { numRuns: 25 },
  );
});

test('of fifty thousand points about a thousand are drawn, and a single spike among them', () => {
  const points = Array.from({ length: 50_000 }, (_, x) => ({
    x,
    y: x === 31_234 ? 9 : Math.sin(x),
  }));
  const kept = thinned(points);
  expect(kept.length).toBeLessThanOrEqual(1000);
  expect(kept).toContainEqual({ x: 31_234, y: 9 });
});

test('few points are left as they are', () => {
  const points = Array.from({ length: 1000 }, (_, x) => ({ x, y: x }));
  expect(thinned(points)).toBe(points);
});
