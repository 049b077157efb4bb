/**
 * Decides which areas are hatched: none that covers most of the pane, and only as many overlapping
 * ones as can be distinguished.
 */
import type { Box } from './text-box.ts';

/** A hatch over nearly everything would say nothing. */
const MOST_OF_THE_PANE = 0.55;

const area = ({ width, height }: Box): number => width * height;

export function hatchedOf(
  shapes: readonly { readonly letter: string; readonly box: Box }[],
  pane: Box,
  most: number,
): readonly string[] {
  return shapes
    .filter(({ box }) => area(box) < MOST_OF_THE_PANE * area(pane))
    .slice(0, most)
    .map(({ letter }) => letter);
}
