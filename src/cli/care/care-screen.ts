/**
 * The state of the unit's care as text for a terminal of 80 columns: every item with a mark that
 * needs no colour, then trends, lamp and counts. Units are those of the trade; care/ decides the
 * content.
 */
import type { CareState, TrendState } from '../../care/care-state.ts';
import { CARE_ITEMS, type DueItem } from '../../care/due-item.ts';
import type { DueState } from '../../care/interval.ts';
import type { LampForecast } from '../../care/lamp-forecast.ts';
import { mWPerCm2FromWPerM2 } from '../../core/units.ts';
import { wrapped } from '../terminal/text-columns.ts';

const STATES: Readonly<Record<DueState, { readonly mark: string; readonly words: string }>> = {
  'in-order': { mark: ' ', words: 'in order' },
  'due-soon': { mark: '-', words: 'due soon' },
  'overdue-warn': { mark: '!', words: 'overdue' },
  blocked: { mark: 'X', words: 'BLOCKED' },
};

const LABEL_COLUMNS = Math.max(...Object.values(CARE_ITEMS).map(({ label }) => label.length));
/** Mark, label and state stand before the words. */
const WORDS_COLUMN = 2 + LABEL_COLUMNS + 2 + 8 + 2;

export interface CareScreen {
  readonly unit: string;
  readonly simulated: boolean;
  readonly state: CareState;
  readonly notes: readonly string[];
}

export function careScreen({ unit, simulated, state, notes }: CareScreen): readonly string[] {
  const where = simulated ? 'on the simulated board' : 'real board';
  return [
    ...wrapped(`Care of ${unit}, ${where}, as of ${state.today}`, 0, 2),
    '',
    ...state.items.flatMap(itemLines),
    '',
    'Trends, with their 95 % range',
    ...state.trends.map(trendLine),
    ...wrapped(`lamp  ${lampWords(state)}`, 2, 8),
    '',
    `On record: ${countWords(state.counts)}`,
    ...notes.flatMap((note) => wrapped(`note: ${note}`, 0, 2)),
  ];
}

function itemLines({ item, state, words, whatToDo }: DueItem): readonly string[] {
  const { mark, words: stateWords } = STATES[state];
  const head = `${mark} ${CARE_ITEMS[item].label.padEnd(LABEL_COLUMNS)}  ${stateWords.padEnd(8)}  `;
  const [first = '', ...rest] = wrapped(words, WORDS_COLUMN);
  const todo = whatToDo === '' ? [] : wrapped(whatToDo, WORDS_COLUMN);
  return [`${head}${first.slice(WORDS_COLUMN)}`, ...rest, ...todo];
}

interface TrendWords {
  readonly label: string;
  readonly unit: string;
  readonly perUnit: number;
  readonly digits: number;
}

const TREND_WORDS: Readonly<Record<TrendState['name'], TrendWords>> = {
  'seal-leak': { label: 'seal leak', unit: 'Pa/s', perUnit: 1, digits: 1 },
  'pump-down': { label: 'pump-down time', unit: 's', perUnit: 1, digits: 2 },
  'pump-ultimate': { label: 'pump leaves', unit: '% of air', perUnit: 100, digits: 2 },
  'lamp-output': { label: 'lamp output', unit: 'mW/cm2', perUnit: 0.1, digits: 2 },
};

const MONTH_DAYS = 30;
const DIRECTION = {
  rising: 'rising',
  falling: 'falling',
  'not-told': 'no significant trend',
} as const;

function trendLine(trend: TrendState): string {
  const { label, unit, perUnit, digits } = TREND_WORDS[trend.name];
  const { latest, readings, perDay, perDayHalfWidth, direction } = trend;
  const name = `  ${label.padEnd(14)}  `;
  if (latest === null) return `${name}no readings`;
  const value = `${(latest * perUnit).toFixed(digits)} ${unit}`.padEnd(16);
  if (perDay === null || perDayHalfWidth === null || direction === null) {
    return `${name}${value}${many(readings, 'reading')}, no trend yet`;
  }
  const monthly = (rate: number): string => (rate * MONTH_DAYS * perUnit).toFixed(digits + 1);
  const sign = perDay < 0 ? '' : '+';
  const rate = `${sign}${monthly(perDay)} +- ${monthly(perDayHalfWidth)} in 30 days`;
  return `${name}${value}${rate.padEnd(28)}${DIRECTION[direction]}`;
}

function lampWords({ lamp }: CareState): string {
  const { perHourWPerM2, perHourHalfWidthWPerM2 } = lamp;
  const light = `${lamp.lampOnH.toFixed(1)} h of light`;
  const rate =
    perHourWPerM2 === null || perHourHalfWidthWPerM2 === null
      ? ''
      : `, ${hundredHours(perHourWPerM2)} +- ${hundredHours(perHourHalfWidthWPerM2)} mW/cm2 in 100 h of light`;
  return `${light}${rate}; ${forecastWords(lamp.forecast)}`;
}

const hundredHours = (wPerM2: number): string => (100 * mWPerCm2FromWPerM2(wPerM2)).toFixed(2);

function forecastWords(forecast: LampForecast): string {
  switch (forecast.kind) {
    case 'cannot-say-yet':
      return `no forecast yet for falling below its limit (${forecast.why})`;
    case 'below-now':
      return `below its limit since ${forecast.on}`;
    case 'far':
      return `not below its limit before ${forecast.notBefore} at the present usage`;
    case 'day':
      return `below its limit about ${forecast.on} (from ${forecast.from} to ${forecast.to ?? 'an unknown day'}) at the present usage`;
  }
}

const countWords = ({ repairs, cures, films, lampOnS }: CareState['counts']): string =>
  `${many(repairs, 'repair')}, ${many(cures, 'cure')}, ${many(films, 'film')}, ${(lampOnS / 3600).toFixed(1)} h of light`;

const many = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;
