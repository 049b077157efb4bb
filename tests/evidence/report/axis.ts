/**
 * Scales and tick labels of a plot: linear or logarithmic, over everything that is drawn, with ticks
 * few enough that their labels stand apart.
 */
import { scaleLinear, scaleLog } from 'd3-scale';

export interface Tick {
  readonly at: number;
  readonly label: string;
}

export interface Axis {
  /** Place on the page; null where a logarithmic axis has none. */
  readonly place: (value: number) => number | null;
  readonly ticks: readonly Tick[];
}

export type AxisKind = 'linear' | 'log';

/** The axis of these values from one page coordinate to the other, with about `count` ticks. */
export function axisOf(
  values: readonly number[],
  kind: AxisKind,
  [from, to]: readonly [number, number],
  count: number,
): Axis {
  const shown = values.filter(
    (value) => Number.isFinite(value) && (kind === 'linear' || value > 0),
  );
  const [lowest, highest] = [Math.min(...shown), Math.max(...shown)];
  if (shown.length === 0) return { place: () => null, ticks: [] };
  return kind === 'linear'
    ? linearAxis(lowest, highest, [from, to], count)
    : logAxis(lowest, highest, [from, to], count);
}

function linearAxis(lowest: number, highest: number, range: [number, number], count: number): Axis {
  // A level line still gets a scale.
  const spare = highest > lowest ? 0 : Math.abs(lowest) / 2 || 1;
  const scale = scaleLinear()
    .domain([lowest - spare, highest + spare])
    .range(range)
    .nice(count);
  const print = scale.tickFormat(count);
  return {
    place: (value) => (Number.isFinite(value) ? scale(value) : null),
    ticks: scale.ticks(count).map((value) => ({ at: scale(value), label: tidy(print(value)) })),
  };
}

function logAxis(lowest: number, highest: number, range: [number, number], count: number): Axis {
  const decades = Math.log10(highest / lowest);
  // Room at both ends, so that no mark sits on the frame.
  const scale = scaleLog()
    .domain(decades < 1 ? [lowest / 1.1, highest * 1.1] : [lowest, highest])
    .range(range);
  if (decades >= 1) scale.nice();
  const [first = lowest, last = highest] = scale.domain();
  const values = logTicks(first, last, count);
  const print = values.every(isPlain) ? plainLabel : powerLabel;
  return {
    place: (value) => (value > 0 && Number.isFinite(value) ? scale(value) : null),
    ticks: values.map((value) => ({ at: scale(value), label: print(value) })),
  };
}

/** 1, 2, 5 of each decade while they fit, else whole decades, else every second, third... of them. */
function logTicks(first: number, last: number, count: number): number[] {
  const decades = Math.log10(last / first);
  const mantissas = decades * 3 <= count ? [1, 2, 5] : [1];
  const every = Math.max(1, Math.ceil(decades / count));
  const lowestExponent = Math.floor(Math.log10(first));
  const highestExponent = Math.ceil(Math.log10(last));
  const ticks: number[] = [];
  for (let exponent = lowestExponent; exponent <= highestExponent; exponent++) {
    if ((exponent - lowestExponent) % every !== 0) continue;
    for (const mantissa of mantissas) ticks.push(Number(`${mantissa}e${exponent}`));
  }
  const inside = ticks.filter((value) => value >= first * 0.999999 && value <= last * 1.000001);
  // Less than a decade may hold none of these.
  return inside.length >= 2
    ? inside
    : scaleLinear()
        .domain([first, last])
        .nice(4)
        .ticks(4)
        .filter((value) => value >= first && value <= last);
}

const SUPERSCRIPTS: Readonly<Record<string, string>> = Object.fromEntries(
  [...'0123456789-'].map((sign, i) => [sign, '⁰¹²³⁴⁵⁶⁷⁸⁹⁻'[i] ?? '']),
);

/** Readable without a power of ten; an axis has all its labels alike. */
const isPlain = (value: number): boolean => value >= 0.000999 && value < 100_001;

const plainLabel = (value: number): string => String(Number(value.toPrecision(6)));

function powerLabel(value: number): string {
  const exponent = Math.floor(Math.log10(value) + 1e-9);
  const power = `10${[...String(exponent)].map((sign) => SUPERSCRIPTS[sign]).join('')}`;
  const mantissa = Number((value / 10 ** exponent).toPrecision(3));
  return mantissa === 1 ? power : `${mantissa}·${power}`;
}

/** A true minus, and thin spaces between thousands. */
const tidy = (label: string): string => label.replace('-', '−').replaceAll(',', '\u202f');
