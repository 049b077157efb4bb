/**
 * Lines, arrow heads, hatches and text as plain SVG attributes, without styles or patterns, so that
 * browsers and the PDF writer draw the same. Areas differ by dash, hatch and letter, never by
 * colour.
 */
import { INK } from './damage-figure.tsx';
import type { Point } from './frame.ts';
import type { Box } from './text-box.ts';
import { boxOf, type TextLine } from './text-line.ts';

const FONT = 'Helvetica, Arial, sans-serif';
const GREY = '#6b6b6b';
const HEAD = 6;

const DASHES = ['9 3', '2 2.5', '12 3 2 3', '5 2.5', '9 2 2 2 2 2', '1.5 4'] as const;
export const dashOf = (index: number): string => DASHES[index % DASHES.length] ?? 'none';

const cents = (value: number): number => Math.round(value * 100) / 100;

export function Text({ text, x, y, size, anchor, bold, upright }: TextLine) {
  const turn = upright === true ? { transform: `rotate(-90 ${cents(x)} ${cents(y)})` } : {};
  return (
    <text
      x={cents(x)}
      y={cents(y)}
      font-family={FONT}
      font-size={size}
      font-weight={bold === true ? 'bold' : 'normal'}
      text-anchor={anchor}
      fill={INK}
      {...turn}
    >
      {text}
    </text>
  );
}

/** White background for words that stand on lines. */
export function Ground(line: TextLine) {
  const box = boxOf(line);
  return <Frame box={{ ...box, y: box.y - 0.5, height: box.height + 1 }} fill="#ffffff" />;
}

interface FrameProps {
  readonly box: Box;
  readonly fill?: string;
  readonly width?: number;
  readonly dash?: string;
}

export function Frame({ box, fill = 'none', width = 0, dash = 'none' }: FrameProps) {
  const dashed = dash === 'none' ? {} : { 'stroke-dasharray': dash };
  return (
    <rect
      x={cents(box.x)}
      y={cents(box.y)}
      width={cents(box.width)}
      height={cents(box.height)}
      fill={fill}
      stroke={width === 0 ? 'none' : INK}
      stroke-width={width}
      {...dashed}
    />
  );
}

interface LineProps {
  readonly a: Point;
  readonly b: Point;
  readonly width?: number;
  readonly dash?: string;
  readonly faint?: boolean;
}

export function Line({ a, b, width = 0.8, dash, faint = false }: LineProps) {
  const dashed = dash === undefined ? {} : { 'stroke-dasharray': dash };
  return (
    <line
      x1={cents(a.x)}
      y1={cents(a.y)}
      x2={cents(b.x)}
      y2={cents(b.y)}
      stroke={faint ? GREY : INK}
      stroke-width={width}
      {...dashed}
    />
  );
}

/** A head at each end, smaller on a line too short for both. */
export function Arrow({ a, b }: { readonly a: Point; readonly b: Point }) {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const head = Math.min(HEAD, length / 2.5);
  return (
    <g>
      <Line a={a} b={b} />
      <path d={`${headPath(a, b, head)}${headPath(b, a, head)}`} fill={INK} />
    </g>
  );
}

function headPath(tip: Point, from: Point, size: number): string {
  const angle = Math.atan2(from.y - tip.y, from.x - tip.x);
  const corner = (turn: number): string =>
    `${cents(tip.x + size * Math.cos(angle + turn))} ${cents(tip.y + size * Math.sin(angle + turn))}`;
  return `M${cents(tip.x)} ${cents(tip.y)}L${corner(0.3)}L${corner(-0.3)}Z`;
}

const TURNS = [1, -1, 0, Number.POSITIVE_INFINITY] as const;

interface HatchProps {
  readonly box: Box;
  readonly index: number;
  /** Denser, for a small box. */
  readonly close?: boolean;
}

/**
 * Slanting, horizontal or vertical lines, clipped to the box; the direction distinguishes areas.
 */
export function Hatch({ box, index, close = false }: HatchProps) {
  const turn = TURNS[index % TURNS.length] ?? 1;
  const step = close ? 4 : 10;
  const lines = hatchLines(box, turn, step);
  const d = lines.map(([a, b]) => `M${cents(a.x)} ${cents(a.y)}L${cents(b.x)} ${cents(b.y)}`);
  return <path d={d.join('')} fill="none" stroke="#8c8c8c" stroke-width={0.45} />;
}

function hatchLines(
  { x, y, width, height }: Box,
  turn: number,
  step: number,
): readonly (readonly [Point, Point])[] {
  const steps = (length: number) =>
    Array.from({ length: Math.max(0, Math.ceil(length / step) - 1) }, (_, i) => (i + 1) * step);
  if (turn === 0) {
    return steps(height).map((off) => [
      { x, y: y + off },
      { x: x + width, y: y + off },
    ]);
  }
  if (!Number.isFinite(turn)) {
    return steps(width).map((off) => [
      { x: x + off, y },
      { x: x + off, y: y + height },
    ]);
  }
  return steps(width + height).map((off) => {
    const a = { across: Math.max(0, off - height), down: Math.min(off, height) };
    const b = { across: Math.min(off, width), down: Math.max(0, off - width) };
    const flipped = (across: number): number => (turn === 1 ? x + across : x + width - across);
    return [
      { x: flipped(a.across), y: y + a.down },
      { x: flipped(b.across), y: y + b.down },
    ];
  });
}
