/**
 * A window of the latest readings of one quantity: their mean, scatter, and least-squares slope,
 * from which a step decides whether a reading is steady. The required steadiness is a setting.
 */
import type { Mean } from '../../core/guided-events.ts';

export interface Sample {
  readonly timeS: number;
  readonly value: number;
}

export type Window = readonly Sample[];

export const NO_SAMPLES: Window = [];

/**
 * Adds a reading and drops those older than `windowS`; an invalid reading starts the window again.
 */
export function addSample(
  window: Window,
  timeS: number,
  value: number | null,
  windowS: number,
): Window {
  if (value === null) return NO_SAMPLES;
  const last = window.at(-1);
  if (last !== undefined && timeS <= last.timeS) return window;
  const kept = window.findIndex((sample) => timeS - sample.timeS <= windowS + SLACK_S);
  return [...(kept < 0 ? [] : window.slice(kept)), { timeS, value }];
}

/** Board time comes in milliseconds: a value within rounding of the edge still belongs inside. */
const SLACK_S = 1e-6;

/** Mean over the last `averageS`; null while the window does not reach back that far. */
export function meanOf(window: Window, averageS: number): Mean | null {
  const last = window.at(-1);
  const first = window[0];
  if (last === undefined || first === undefined) return null;
  if (last.timeS - first.timeS < averageS - SLACK_S) return null;
  const values = window
    .filter(({ timeS }) => last.timeS - timeS <= averageS + SLACK_S)
    .map(({ value }) => value);
  const n = values.length;
  if (n < 2) return null;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, standardDeviation: Math.sqrt(squares / (n - 1)), n, ownStandard: 0 };
}

/**
 * Value at the last moment of the window, by a straight line through its last `averageS`. What a
 * person reads at one moment is thus compared with the same moment, even where both drift. The end
 * of a line has twice the standard uncertainty of its middle, so three quarters of its variance
 * come on top of the mean's own.
 */
export function endOf(window: Window, averageS: number): Mean | null {
  const mean = meanOf(window, averageS);
  const last = window.at(-1);
  if (mean === null || last === undefined) return null;
  const within = window.filter(({ timeS }) => last.timeS - timeS <= averageS + SLACK_S);
  const line = lineOf(within);
  if (line === null) return null;
  const residuals = within.map(
    ({ timeS, value }) => value - line.mean - line.slopePerS * (timeS - line.meanS),
  );
  const squares = residuals.reduce((sum, residual) => sum + residual * residual, 0);
  const standardDeviation = Math.sqrt(squares / Math.max(1, mean.n - 2));
  return {
    mean: line.mean + line.slopePerS * (last.timeS - line.meanS),
    standardDeviation,
    n: mean.n,
    ownStandard: Math.sqrt(3 / mean.n) * standardDeviation,
  };
}

/** Slope by least squares, per second; null while the window is not full. */
export function slopeOf(window: Window, windowS: number): number | null {
  const first = window[0];
  const last = window.at(-1);
  if (first === undefined || last === undefined) return null;
  if (last.timeS - first.timeS < 0.95 * windowS) return null;
  return lineOf(window)?.slopePerS ?? null;
}

function lineOf(window: Window): { slopePerS: number; mean: number; meanS: number } | null {
  const n = window.length;
  const meanS = window.reduce((sum, { timeS }) => sum + timeS, 0) / n;
  const mean = window.reduce((sum, { value }) => sum + value, 0) / n;
  let tt = 0;
  let tv = 0;
  for (const { timeS, value } of window) {
    tt += (timeS - meanS) ** 2;
    tv += (timeS - meanS) * (value - mean);
  }
  return tt > 0 ? { slopePerS: tv / tt, mean, meanS } : null;
}
