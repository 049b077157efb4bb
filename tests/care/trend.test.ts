import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { crossingOf, type Point, type Trend, trendOf } from '../../src/care/trend.ts';
import { tFactor } from './records.ts';

function trend(points: readonly Point[]): Trend {
  const found = trendOf(points, tFactor);
  if (found === null) throw new Error('no trend');
  return found;
}

const value = fc.integer({ min: -100_000, max: 100_000 }).map((hundredths) => hundredths / 100);
const points = fc
  .array(fc.record({ x: fc.integer({ min: 0, max: 500 }), y: value }), {
    minLength: 3,
    maxLength: 40,
  })
  .filter((all) => new Set(all.map(({ x }) => x)).size > 1);

describe('a trend', () => {
  test('of a line is that line, and is told', () => {
    const line = Array.from({ length: 8 }, (_, i) => ({ x: 3 * i, y: 5 - 0.25 * (3 * i) }));
    const { slope, direction, slopeStandard } = trend(line);
    expect(slope).toBeCloseTo(-0.25, 12);
    expect(slopeStandard).toBeLessThan(1e-12);
    expect(direction).toBe('falling');
  });

  test('does not change when days are counted from another day, and turns with the values', () => {
    fc.assert(
      fc.property(points, fc.integer({ min: -20_000, max: 20_000 }), (all, shift) => {
        const { slope, slopeStandard, direction } = trend(all);
        const moved = trend(all.map(({ x, y }) => ({ x: x + shift, y })));
        expect(moved.slope).toBeCloseTo(slope, 6);
        expect(moved.slopeStandard).toBeCloseTo(slopeStandard, 6);
        const turned = trend(all.map(({ x, y }) => ({ x, y: -y })));
        expect(turned.slope).toBeCloseTo(-slope, 9);
        const other = { rising: 'falling', falling: 'rising', 'not-told': 'not-told' }[direction];
        expect(turned.direction).toBe(other);
      }),
    );
  });

  test('no other line has smaller squares', () => {
    fc.assert(
      fc.property(points, value, value, (all, tilt, lift) => {
        const { slope, meanX, meanY } = trend(all);
        const squares = (b: number, a: number) =>
          all.reduce((sum, { x, y }) => sum + (y - a - b * (x - meanX)) ** 2, 0);
        const other = squares(slope + tilt / 1000, meanY + lift / 1000);
        expect(squares(slope, meanY)).toBeLessThanOrEqual(other * (1 + 1e-9) + 1e-9);
      }),
    );
  });

  test('is settled neither by two readings nor by readings of one day', () => {
    expect(
      trendOf(
        [
          { x: 0, y: 1 },
          { x: 9, y: 2 },
        ],
        tFactor,
      ),
    ).toBeNull();
    expect(
      trendOf(
        [1, 2, 3].map((y) => ({ x: 7, y })),
        tFactor,
      ),
    ).toBeNull();
  });
});

describe('a crossing', () => {
  test('lies where the line reaches the value, and the value on the edge of its band at both ends', () => {
    fc.assert(
      fc.property(points, value, (all, y) => {
        const line = trend(all);
        const crossing = crossingOf(line, y, tFactor);
        if (crossing === null) return;
        const at = (x: number) => line.meanY + line.slope * (x - line.meanX);
        const scale = Math.abs(y) + Math.abs(line.meanY) + 1;
        expect(Math.abs(at(crossing.x) - y) / scale).toBeLessThan(1e-9);
        expect(crossing.from).toBeLessThanOrEqual(crossing.x + 1e-6);
        expect(crossing.to).toBeGreaterThanOrEqual(crossing.x - 1e-6);
        for (const x of [crossing.from, crossing.to]) {
          const band =
            tFactor(line.degreesOfFreedom) *
            line.residualDeviation *
            Math.sqrt(1 / line.readings + (x - line.meanX) ** 2 / line.spreadX);
          // Far out both sides grow without bound; they are compared as parts.
          expect(Math.abs(Math.abs(at(x) - y) - band) / (scale + band)).toBeLessThan(1e-5);
        }
      }),
    );
  });

  test('is not told where its ends are not numbers', () => {
    const tiny = [0, 0, 5e-324].map((y, x) => ({ x: Math.max(0, x - 1), y }));
    expect(crossingOf(trend(tiny), 0, tFactor)).toBeNull();
  });

  test('is not told where the slope is not', () => {
    const flat = trend([0, 1, 0, 1, 0, 1].map((y, x) => ({ x, y })));
    expect(flat.direction).toBe('not-told');
    expect(crossingOf(flat, 10, tFactor)).toBeNull();
  });
});
