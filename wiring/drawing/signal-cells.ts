/** The grid of cells on the sheet of signals. */
import type { Point } from './shapes.ts';

export const CELL_SIZE: Point = [27, 22];
const FIRST: Point = [4, 6.6];
const GAP = 1;

export const cell = (column: number, row: number): Point => [
  FIRST[0] + column * (CELL_SIZE[0] + GAP),
  FIRST[1] + row * (CELL_SIZE[1] + GAP),
];
