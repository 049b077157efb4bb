/**
 * One plot as a figure: the model as lines, the reference as points, axes with their units, and a
 * legend beneath that wraps with the page. The n-th points have the ink of the n-th line. Lines
 * differ by dash and points by shape as well as by ink, so that they can be told apart in grey.
 */
import { line } from 'd3-shape';
import type { Curve, Plot } from '../check.ts';
import { type Axis, axisOf } from './axis.ts';

const WIDTH = 600;
const HEIGHT = 360;
const TOP = 14;
const BOTTOM = HEIGHT - 52;
const RIGHT = WIDTH - 30;
const DIGIT_WIDTH = 7;
const LETTER_SIZE = 12.5;

const INK = '#1b2430';
const QUIET_INK = '#56616d';
const GRID = '#dde2e7';
const INKS = ['#0b5c8a', '#a84300', '#5b3a8c', '#0a5f54', '#8a2c4f', '#6d5a00'];
const DASHES = ['', '7 3', '2 3', '9 3 2 3', '12 4', '4 2'];
const SHAPES = ['circle', 'square', 'triangle', 'diamond', 'cross', 'plus'] as const;

const cyclic = <T,>(list: readonly T[], index: number, spare: T): T =>
  list[index % list.length] ?? spare;
const inkOf = (index: number): string => cyclic(INKS, index, INK);

export function PlotFigure({ plot, id }: { readonly plot: Plot; readonly id: string }) {
  const all = [...plot.lines, ...plot.points];
  const scale = plot.scale ?? 'linear';
  const xs = all.flatMap(({ x }) => x);
  const ys = all.flatMap(({ y }) => y);
  const y = axisOf(ys, scale === 'linear' ? 'linear' : 'log', [BOTTOM, TOP], 6);
  const longest = Math.max(1, ...y.ticks.map(({ label }) => label.length));
  const left = 40 + longest * DIGIT_WIDTH;
  const x = axisOf(xs, scale === 'log both' ? 'log' : 'linear', [left, RIGHT], 7);
  return (
    <figure>
      <figcaption>{plot.title}</figcaption>
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-labelledby={id}
        font-size={LETTER_SIZE}
      >
        <title id={id}>
          {plot.title}: {plot.yLabel} over {plot.xLabel}
        </title>
        <Frame x={x} y={y} left={left} plot={plot} />
        {plot.lines.map((curve, i) => (
          <path
            key={curve.label}
            d={pathOf(curve, x, y)}
            fill="none"
            stroke={inkOf(i)}
            stroke-width="1.8"
            stroke-dasharray={cyclic(DASHES, i, '')}
          />
        ))}
        {plot.points.map((curve, i) => (
          <g key={curve.label}>
            {placed(curve, x, y).map(([px, py]) =>
              px === null || py === null ? null : (
                <Mark key={`${px} ${py}`} x={px} y={py} index={i} />
              ),
            )}
          </g>
        ))}
      </svg>
      <Legend plot={plot} />
    </figure>
  );
}

type Place = readonly [x: number | null, y: number | null];

const placed = (curve: Curve, x: Axis, y: Axis): Place[] =>
  curve.x.map((value, i) => [x.place(value), y.place(curve.y[i] ?? Number.NaN)]);

/** Broken where there is no place. */
function pathOf(curve: Curve, x: Axis, y: Axis): string {
  const draw = line<Place>()
    .defined(([px, py]) => px !== null && py !== null)
    .x(([px]) => Math.round((px ?? 0) * 10) / 10)
    .y(([, py]) => Math.round((py ?? 0) * 10) / 10);
  return draw(placed(curve, x, y)) ?? '';
}

interface FrameProps {
  readonly x: Axis;
  readonly y: Axis;
  readonly left: number;
  readonly plot: Plot;
}

function Frame({ x, y, left, plot }: FrameProps) {
  return (
    <g fill={INK}>
      {y.ticks.map(({ at, label }) => (
        <g key={label}>
          <line x1={left} x2={RIGHT} y1={at} y2={at} stroke={GRID} />
          <text x={left - 7} y={at + 4} text-anchor="end">
            {label}
          </text>
        </g>
      ))}
      {x.ticks.map(({ at, label }) => (
        <g key={label}>
          <line x1={at} x2={at} y1={TOP} y2={BOTTOM} stroke={GRID} />
          <line x1={at} x2={at} y1={BOTTOM} y2={BOTTOM + 4} stroke={INK} />
          <text x={at} y={BOTTOM + 19} text-anchor="middle">
            {label}
          </text>
        </g>
      ))}
      <line x1={left} x2={RIGHT} y1={BOTTOM} y2={BOTTOM} stroke={INK} />
      <line x1={left} x2={left} y1={TOP} y2={BOTTOM} stroke={INK} />
      <text x={(left + RIGHT) / 2} y={HEIGHT - 8} text-anchor="middle" fill={QUIET_INK}>
        {plot.xLabel}
      </text>
      <text
        transform={`translate(17 ${(TOP + BOTTOM) / 2}) rotate(-90)`}
        text-anchor="middle"
        fill={QUIET_INK}
      >
        {plot.yLabel}
      </text>
    </g>
  );
}

interface MarkProps {
  readonly x: number;
  readonly y: number;
  readonly index: number;
}

/** Hollow, so that a line shows through the mark that sits on it. */
function Mark({ x, y, index }: MarkProps) {
  const shape = cyclic(SHAPES, index, 'circle');
  const at = { transform: `translate(${x.toFixed(1)} ${y.toFixed(1)})` };
  const pen = { fill: 'none', stroke: inkOf(index), 'stroke-width': 1.6 };
  if (shape === 'circle') return <circle {...at} {...pen} r="3.6" />;
  return <path {...at} {...pen} d={MARKS[shape]} />;
}

const MARKS: Readonly<Record<Exclude<(typeof SHAPES)[number], 'circle'>, string>> = {
  square: 'M-3.3-3.3H3.3V3.3H-3.3Z',
  triangle: 'M0-4.2L4 3.2H-4Z',
  diamond: 'M0-4.6L4 0L0 4.6L-4 0Z',
  cross: 'M-3.4-3.4L3.4 3.4M-3.4 3.4L3.4-3.4',
  plus: 'M0-4.4V4.4M-4.4 0H4.4',
};

function Legend({ plot }: { readonly plot: Plot }) {
  return (
    <ul class="legend">
      {plot.lines.map(({ label }, i) => (
        <li key={`line ${label}`}>
          <svg viewBox="0 0 34 12" width="34" height="12" aria-hidden="true">
            <path
              d="M1 6H33"
              stroke={inkOf(i)}
              stroke-width="1.8"
              stroke-dasharray={cyclic(DASHES, i, '')}
            />
          </svg>
          {label}
        </li>
      ))}
      {plot.points.map(({ label }, i) => (
        <li key={`points ${label}`}>
          <svg viewBox="0 0 14 12" width="14" height="12" aria-hidden="true">
            <Mark x={7} y={6} index={i} />
          </svg>
          {label}
        </li>
      ))}
    </ul>
  );
}
