/**
 * What the report's charts share: size, inks, axes, traces. Inks keep a contrast of 4.5 to 1 on
 * white, and lines differ by dash as well as by hue, so that they can be distinguished in greyscale
 * (WCAG 2.2, 1.4.1 and 1.4.3). Each chart decides what it draws.
 */
import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { curveLinear, curveStepAfter, line } from 'd3-shape';
import type { ComponentChildren, VNode } from 'preact';
import { render } from 'preact-render-to-string';
import type { Tongue } from '../../core/sayings.ts';
import type { Block } from '../blocks.ts';
import { thinned } from './thinned.ts';

export const WIDTH = 760;
export const LEFT = 54;
export const RIGHT = WIDTH - 56;

export const INK = '#1b2430';
export const QUIET_INK = '#56616d';
export const GRID = '#dde2e7';
export const PRESSURE_INK = '#0b5c8a';
export const SET_POINT_INK = '#a84300';
export const DOSE_INK = '#5b3a8c';
export const LIGHT_INK = '#6d5a00';
export const GLASS_INK = '#8a2c4f';

export type Scale = ScaleLinear<number, number>;

export interface Point {
  readonly x: number;
  /** Null leaves a gap. */
  readonly y: number | null;
}

/** The plot area lies between these two heights. */
export interface Band {
  readonly top: number;
  readonly bottom: number;
}

export const yScale = (lowest: number, highest: number, { top, bottom }: Band): Scale =>
  scaleLinear().domain([lowest, highest]).range([bottom, top]);

/** Minutes across the plot; a job without duration still gets a scale. */
export const minutesScale = (fromS: number, toS: number): Scale =>
  scaleLinear()
    .domain([fromS / 60, Math.max(toS, fromS + 1) / 60])
    .range([LEFT, RIGHT]);

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** Path through the points in chart units, without points too close together to be seen. */
export function tracePath(points: readonly Point[], x: Scale, y: Scale, stepped = false): string {
  const placed = points.map((point) => ({
    x: tenth(x(point.x)),
    y: point.y === null ? null : tenth(y(point.y)),
  }));
  const kept = placed.filter(
    (point, i) => point.y !== placed[i - 1]?.y || point.y !== placed[i + 1]?.y,
  );
  const draw = line<Point>()
    .defined((point) => point.y !== null)
    .x((point) => point.x)
    .y((point) => point.y ?? 0)
    .curve(stepped ? curveStepAfter : curveLinear);
  return draw(thinned(kept)) ?? '';
}

/** What a reader is told of a drawing besides its lines. */
export interface Drawn {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly caption?: string;
}

export const figureOf = (drawn: Drawn, chart: VNode): Block => ({
  kind: 'figure',
  ...drawn,
  svg: render(chart),
});

interface ChartProps {
  readonly id: string;
  readonly title: string;
  /** The content of the chart for a reader who cannot see it. */
  readonly description: string;
  readonly height: number;
  /** A chart with its own width is a small one, whose letters stay readable on a telephone. */
  readonly width?: number;
  readonly children: ComponentChildren;
}

/** Uses plain attributes and no classes, so that paper and screen draw the same. */
export function Chart({ id, title, description, height, width, children }: ChartProps) {
  return (
    <svg
      viewBox={`0 0 ${width ?? WIDTH} ${height}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-description`}
      font-size="11.5"
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-description`}>{description}</desc>
      {children}
    </svg>
  );
}

interface TimeAxisProps {
  readonly x: Scale;
  readonly band: Band;
  readonly label: string;
  readonly figure: Tongue['figure'];
}

export function TimeAxis({ x, band, label, figure }: TimeAxisProps) {
  return (
    <g fill={INK}>
      {x.ticks(8).map((minutes) => (
        <g key={minutes}>
          <line
            x1={x(minutes)}
            x2={x(minutes)}
            y1={band.bottom}
            y2={band.bottom + 4}
            stroke={INK}
          />
          <text x={x(minutes)} y={band.bottom + 17} text-anchor="middle">
            {figure(String(minutes))}
          </text>
        </g>
      ))}
      <line x1={LEFT} x2={RIGHT} y1={band.bottom} y2={band.bottom} stroke={INK} />
      <text x={(LEFT + RIGHT) / 2} y={band.bottom + 34} text-anchor="middle" fill={QUIET_INK}>
        {label}
      </text>
    </g>
  );
}

interface ValueAxisProps {
  readonly y: Scale;
  readonly band: Band;
  readonly label: string;
  readonly side: 'left' | 'right';
  readonly figure: Tongue['figure'];
  readonly ink?: string;
  readonly count?: number;
}

export function ValueAxis(props: ValueAxisProps) {
  const { y, band, label, side, figure, ink = INK, count = 6 } = props;
  const left = side === 'left';
  const at = left ? LEFT - 7 : RIGHT + 7;
  const middle = (band.top + band.bottom) / 2;
  const labelX = left ? 13 : WIDTH - 8;
  return (
    <g fill={ink}>
      {y.ticks(count).map((value) => (
        <g key={value}>
          {left && <line x1={LEFT} x2={RIGHT} y1={y(value)} y2={y(value)} stroke={GRID} />}
          <text x={at} y={y(value) + 4} text-anchor={left ? 'end' : 'start'}>
            {figure(signed(value))}
          </text>
        </g>
      ))}
      <text
        transform={`translate(${labelX} ${middle}) rotate(-90)`}
        text-anchor="middle"
        fill={ink}
      >
        {label}
      </text>
    </g>
  );
}

/** A true minus sign. */
const signed = (value: number): string => String(value).replace('-', '−');

interface LevelLineProps {
  readonly value: number;
  readonly y: Scale;
  readonly words: string;
}

/** A target or a limit across the plot. */
export function LevelLine({ value, y, words }: LevelLineProps) {
  return (
    <g>
      <line
        x1={LEFT}
        x2={RIGHT}
        y1={y(value)}
        y2={y(value)}
        stroke={SET_POINT_INK}
        stroke-width="2"
        stroke-dasharray="7 4"
      />
      <text x={LEFT + 6} y={y(value) - 5} fill={SET_POINT_INK}>
        {words}
      </text>
    </g>
  );
}
