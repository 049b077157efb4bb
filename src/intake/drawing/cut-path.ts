/** Rings and lines as paths that end at the pane's edge, because there is no glass beyond it. */
import type { Point } from './frame.ts';
import { type Box, contains } from './text-box.ts';

const STEPS = 120;

const cents = (value: number): number => Math.round(value * 100) / 100;

/** Part of a ring between two angles, as a polyline. */
export function arcPath(
  { x, y }: Point,
  radius: number,
  [from, to]: readonly [number, number],
  within?: Box,
): string {
  return linePath(
    Array.from({ length: STEPS + 1 }, (_, step) => {
      const angle = from + ((to - from) * step) / STEPS;
      return { x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) };
    }),
    within,
  );
}

export const ringPath = (at: Point, radius: number, within?: Box): string =>
  arcPath(at, radius, [0, 2 * Math.PI], within);

/** Empty where no point lies on the pane. */
export function linePath(points: readonly Point[], within?: Box): string {
  const on = (point: Point | undefined): boolean =>
    point !== undefined && (within === undefined || contains(within, point));
  const pieces = points.map((point, step) => {
    if (!on(point)) return '';
    const pen = on(points[step - 1]) ? 'L' : 'M';
    return `${pen}${cents(point.x)} ${cents(point.y)}`;
  });
  return pieces.join('');
}
