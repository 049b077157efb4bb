/**
 * Viscosity of a resin against temperature, from a data sheet's table. Two points give Andrade's
 * law, ln μ = a + b / T; three or more the law of Vogel, Fulcher and Tammann, ln μ = a + b / (T -
 * c), by least squares of ln μ: a line for every c, and a search over c alone. It refuses tables
 * that no liquid can have; the resin is chosen elsewhere.
 */

export interface ViscosityPoint {
  readonly temperatureK: number;
  readonly viscosityPaS: number;
}

/** ln(μ / Pa s) = a + b / (T - c); c = 0 is the law of Andrade. */
export interface ViscosityLaw {
  readonly a: number;
  readonly bK: number;
  readonly cK: number;
  /** The largest deviation of the law from the table, as a share of the table's value. */
  readonly worstMissRatio: number;
}

export type ViscosityFit =
  | { readonly ok: true; readonly law: ViscosityLaw }
  | { readonly ok: false; readonly problem: string };

/** Points closer together than this say more about the measurement than about the resin. */
const LEAST_SPREAD_K = 5;
/** Vogel's temperature is searched up to this far below the coldest point. */
const NEAREST_POLE_K = 20;
const SCAN_PARTS = 64;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Each iteration shrinks the search by 0.618: to below a millikelvin. */
const SEARCH_TURNS = 32;

export function viscosityPaS({ a, bK, cK }: ViscosityLaw, temperatureK: number): number {
  return Math.exp(a + bK / (temperatureK - cK));
}

/** Fits the law to a table in any order; the temperatures in K, 200 to 500. */
export function fitViscosity(table: readonly ViscosityPoint[]): ViscosityFit {
  const points = [...table].sort((one, other) => one.temperatureK - other.temperatureK);
  const problem = problemOf(points);
  if (problem !== null) return { ok: false, problem };
  const cK = points.length === 2 ? 0 : bestPoleK(points);
  return { ok: true, law: lawWith(points, cK) };
}

/** The same law for a resin that is thicker or thinner by a ratio at every temperature. */
export function scaledViscosity(law: ViscosityLaw, ratio: number): ViscosityLaw {
  return { ...law, a: law.a + Math.log(ratio) };
}

function problemOf(points: readonly ViscosityPoint[]): string | null {
  const [coldest] = points;
  const warmest = points.at(-1);
  if (coldest === undefined || warmest === undefined || points.length < 2)
    return 'a table of viscosity needs two points or more';
  const sound = points.every(
    ({ temperatureK, viscosityPaS }) =>
      temperatureK >= 200 && temperatureK <= 500 && viscosityPaS > 0 && viscosityPaS < Infinity,
  );
  if (!sound) return 'temperatures must lie from 200 to 500 K and viscosities be above zero';
  if (warmest.temperatureK - coldest.temperatureK < LEAST_SPREAD_K)
    return `the points must lie ${LEAST_SPREAD_K} K apart or more`;
  const falls = points.every((point, i) => {
    const colder = points[i - 1];
    if (colder === undefined) return true;
    return point.temperatureK > colder.temperatureK && point.viscosityPaS < colder.viscosityPaS;
  });
  return falls ? null : 'viscosity must fall from each point to the next warmer one';
}

/**
 * Golden-section search around the best of a coarse scan: the misfit may have a second, shallower
 * minimum.
 */
function bestPoleK(points: readonly ViscosityPoint[]): number {
  const highestK = Math.min(...points.map(({ temperatureK }) => temperatureK)) - NEAREST_POLE_K;
  const misfitAt = (cK: number): number => misfit(points, lineOver(points, cK), cK);
  let best = 0;
  for (let i = 1; i <= SCAN_PARTS; i++) {
    if (misfitAt((highestK * i) / SCAN_PARTS) < misfitAt((highestK * best) / SCAN_PARTS)) best = i;
  }
  let low = (highestK * Math.max(0, best - 1)) / SCAN_PARTS;
  let high = (highestK * Math.min(SCAN_PARTS, best + 1)) / SCAN_PARTS;
  for (let turn = 0; turn < SEARCH_TURNS; turn++) {
    const one = high - GOLDEN * (high - low);
    const other = low + GOLDEN * (high - low);
    if (misfitAt(one) < misfitAt(other)) high = other;
    else low = one;
  }
  const found = (low + high) / 2;
  // At either end of the range the end itself may be the best.
  return [0, highestK].reduce((so, end) => (misfitAt(end) < misfitAt(so) ? end : so), found);
}

interface Line {
  readonly a: number;
  readonly bK: number;
}

/** Least squares of ln μ over 1 / (T - c). */
function lineOver(points: readonly ViscosityPoint[], cK: number): Line {
  const xs = points.map(({ temperatureK }) => 1 / (temperatureK - cK));
  const ys = points.map(({ viscosityPaS }) => Math.log(viscosityPaS));
  const xMean = mean(xs);
  const yMean = mean(ys);
  let xx = 0;
  let xy = 0;
  xs.forEach((x, i) => {
    xx += (x - xMean) * (x - xMean);
    xy += (x - xMean) * ((ys[i] ?? yMean) - yMean);
  });
  const bK = xy / xx;
  return { a: yMean - bK * xMean, bK };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const missOfLog = (point: ViscosityPoint, { a, bK }: Line, cK: number): number =>
  a + bK / (point.temperatureK - cK) - Math.log(point.viscosityPaS);

const misfit = (points: readonly ViscosityPoint[], line: Line, cK: number): number =>
  points.reduce((sum, point) => sum + missOfLog(point, line, cK) ** 2, 0);

function lawWith(points: readonly ViscosityPoint[], cK: number): ViscosityLaw {
  const line = lineOver(points, cK);
  const misses = points.map((point) => Math.abs(Math.expm1(missOfLog(point, line, cK))));
  return { ...line, cK, worstMissRatio: Math.max(...misses) };
}
