/**
 * A straight line through measurements at different times: least squares with Student's t, and
 * whether the slope differs significantly from zero. The usual assumptions apply: independent
 * readings of equal spread at known times. The caller decides what a trend means for the unit.
 */

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Two-sided factor of Student's t for the degrees of freedom; the caller chooses the coverage. */
export type TFactor = (degreesOfFreedom: number) => number;

export interface Trend {
  readonly readings: number;
  readonly slope: number;
  readonly slopeStandard: number;
  /** Value of the line at the mean of x. */
  readonly meanX: number;
  readonly meanY: number;
  readonly residualDeviation: number;
  readonly degreesOfFreedom: number;
  /** Sum of squared deviations of x from its mean. */
  readonly spreadX: number;
  /** Half-width of the slope's confidence interval. */
  readonly slopeHalfWidth: number;
  readonly direction: 'rising' | 'falling' | 'not-told';
}

/**
 * Null where fewer than three points, or all at one time, do not determine a line and its spread.
 */
export function trendOf(points: readonly Point[], tFactor: TFactor): Trend | null {
  const readings = points.length;
  if (readings < 3) return null;
  const meanX = mean(points.map(({ x }) => x));
  const meanY = mean(points.map(({ y }) => y));
  const spreadX = sum(points.map(({ x }) => (x - meanX) ** 2));
  if (!(spreadX > 0)) return null;
  const slope = sum(points.map(({ x, y }) => (x - meanX) * (y - meanY))) / spreadX;
  const residuals = points.map(({ x, y }) => y - meanY - slope * (x - meanX));
  const degreesOfFreedom = readings - 2;
  const residualDeviation = Math.sqrt(sum(residuals.map((r) => r * r)) / degreesOfFreedom);
  const slopeStandard = residualDeviation / Math.sqrt(spreadX);
  const slopeHalfWidth = tFactor(degreesOfFreedom) * slopeStandard;
  return {
    readings,
    slope,
    slopeStandard,
    meanX,
    meanY,
    residualDeviation,
    degreesOfFreedom,
    spreadX,
    slopeHalfWidth,
    direction: Math.abs(slope) <= slopeHalfWidth ? 'not-told' : slope > 0 ? 'rising' : 'falling',
  };
}

/** The x at which the line reaches a value, with its range. */
export interface Crossing {
  readonly x: number;
  readonly from: number;
  readonly to: number;
}

/**
 * Where the line reaches `y`: inverse estimation by Fieller's theorem, as the range of x for which
 * `y` lies inside the line's confidence band. Null where the slope is not significant, because the
 * range is then unbounded.
 */
export function crossingOf(trend: Trend, y: number, tFactor: TFactor): Crossing | null {
  const { slope, meanX, meanY, spreadX, readings, residualDeviation, degreesOfFreedom } = trend;
  if (trend.direction === 'not-told' || slope === 0) return null;
  const t = tFactor(degreesOfFreedom);
  const rise = y - meanY;
  const g = (t * trend.slopeStandard) ** 2 / slope ** 2;
  const middle = rise / slope / (1 - g);
  const width =
    ((t * residualDeviation) / Math.abs(slope) / (1 - g)) *
    Math.sqrt((1 - g) / readings + (rise / slope) ** 2 / spreadX);
  const crossing = {
    x: meanX + rise / slope,
    from: meanX + middle - width,
    to: meanX + middle + width,
  };
  // Nearly scatter-free points with a slope near zero divide by almost nothing.
  return Object.values(crossing).every(Number.isFinite) ? crossing : null;
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);
const mean = (values: readonly number[]): number => sum(values) / values.length;
