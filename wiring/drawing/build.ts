/** Helpers for writing sheets: parts standing or lying, wires, labels, ground. */

import { type Point, type Text, text } from './shapes.ts';
import type { Block, Label, Placement, Side, Wire } from './sheet.ts';

export const standing = (part: string, at: Point, words: Side = 'right'): Placement => ({
  part,
  at,
  turn: 0,
  words,
});
/** Terminal `a` at the left. */
export const lying = (part: string, at: Point, words: Side = 'up'): Placement => ({
  part,
  at,
  turn: 3,
  words,
});
export const upsideDown = (part: string, at: Point, words: Side = 'right'): Placement => ({
  part,
  at,
  turn: 2,
  words,
});
export const wire = (net: string, ...points: Point[]): Wire => ({ net, points });
export const label = (net: string, at: Point, side: Side): Label => ({ net, at, side });
export const ground = (at: Point): Label => label('GND', at, 'down');
export const noteLines = ([x, y]: Point, lines: readonly string[]): readonly Text[] =>
  lines.map((words, index) => text([x, y + index * 1.35], 'start', words));

/** One block from several pieces that share its coordinates. */
export type Piece = Partial<Pick<Block, 'placements' | 'wires' | 'labels' | 'notes' | 'extras'>>;
export function block(title: string, at: Point, size: Point, ...pieces: readonly Piece[]): Block {
  return {
    title,
    at,
    size,
    placements: pieces.flatMap(({ placements = [] }) => placements),
    wires: pieces.flatMap(({ wires = [] }) => wires),
    labels: pieces.flatMap(({ labels = [] }) => labels),
    notes: pieces.flatMap(({ notes = [] }) => notes),
    extras: pieces.flatMap(({ extras = [] }) => extras),
  };
}
