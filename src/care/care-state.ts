/**
 * Everything that the care screen shows: what is due, the trends of leak, pump and lamp, when the
 * lamp will be too weak, and what was used. Plain data in SI; the command decides wording and
 * layout.
 */
import { daysFrom } from '../core/calendar.ts';
import type { HealthTest } from './care-entry.ts';
import {
  type CareFacts,
  happened,
  isAfter,
  isHealthTest,
  lastService,
  repairsSince,
} from './care-records.ts';
import type { CareSettings } from './care-settings.ts';
import { dueItems } from './due.ts';
import type { DueItem } from './due-item.ts';
import { type DueState, worstOf } from './interval.ts';
import { forecastLamp, type LampForecast } from './lamp-forecast.ts';
import { alikeOutputs, type LampOutput, lampLifeOf } from './lamp-history.ts';
import { type Point, type TFactor, type Trend, trendOf } from './trend.ts';

export const TRENDS = ['seal-leak', 'pump-down', 'pump-ultimate', 'lamp-output'] as const;
export type TrendName = (typeof TRENDS)[number];

export interface TrendState {
  readonly name: TrendName;
  /** `1`: the pump's ultimate pressure as a ratio to the atmosphere. */
  readonly unit: 'Pa/s' | 's' | '1' | 'W/m2';
  readonly latest: number | null;
  readonly readings: number;
  /** Change per day; null where there are fewer than three readings, or all are of one day. */
  readonly perDay: number | null;
  readonly perDayHalfWidth: number | null;
  readonly direction: Trend['direction'] | null;
}

export interface CareState {
  readonly today: string;
  readonly worst: DueState;
  readonly items: readonly DueItem[];
  readonly trends: readonly TrendState[];
  readonly lamp: {
    readonly newOn: string | null;
    readonly lampOnH: number;
    readonly forecast: LampForecast;
    /** Change of the output per hour of light, with half-width; null where it is not determined. */
    readonly perHourWPerM2: number | null;
    readonly perHourHalfWidthWPerM2: number | null;
  };
  /** Totals over the whole record. */
  readonly counts: {
    readonly repairs: number;
    readonly cures: number;
    readonly films: number;
    readonly lampOnS: number;
  };
}

export function careStateOf(facts: CareFacts, settings: CareSettings, tFactor: TFactor): CareState {
  const items = dueItems(facts, settings);
  const life = lampLifeOf(facts);
  const outputs = alikeOutputs(life.outputs);
  const all = repairsSince(null, facts);
  return {
    today: facts.today,
    worst: worstOf(items.map(({ state }) => state)),
    items,
    trends: trendsOf(facts, outputs, tFactor),
    lamp: {
      newOn: life.newOn,
      lampOnH: life.lampOnH,
      forecast: forecastLamp({ outputs, today: facts.today }, settings, tFactor),
      ...perHour(outputs, tFactor),
    },
    counts: {
      repairs: all.length,
      cures: sum(all.map(({ cures }) => cures)),
      films: sum(all.map(({ films }) => films)),
      lampOnS: sum(all.map(({ lampOnS }) => lampOnS)),
    },
  };
}

/** A new O-ring starts the seal's history again, a new lamp the lamp's. */
function trendsOf(
  facts: CareFacts,
  outputs: readonly LampOutput[],
  tFactor: TFactor,
): readonly TrendState[] {
  const tests = happened(facts.care.filter(isHealthTest), facts.today);
  const ring = lastService('o-ring', facts);
  const ofThisRing = tests.filter(
    ({ seq, body: { on } }) => ring === null || isAfter({ seq, on }, ring),
  );
  // Times to different pressures cannot be compared.
  const alike = tests.filter(({ body }) => body.pumpDownToPa === tests.at(-1)?.body.pumpDownToPa);
  const points = (
    records: typeof tests,
    value: (test: HealthTest) => number | null,
  ): readonly Point[] =>
    records.flatMap(({ body }) => {
      const y = value(body);
      return y === null ? [] : [{ x: daysFrom(facts.today, body.on), y }];
    });
  const state = (name: TrendName, unit: TrendState['unit'], series: readonly Point[]) =>
    stateOfTrend(name, unit, series, tFactor);
  return [
    state(
      'seal-leak',
      'Pa/s',
      points(ofThisRing, ({ sealLeakPaPerS }) => sealLeakPaPerS),
    ),
    state(
      'pump-down',
      's',
      points(alike, ({ pumpDownS }) => pumpDownS),
    ),
    state(
      'pump-ultimate',
      '1',
      points(tests, ({ ultimatePa, atmospherePa }) => ultimatePa / atmospherePa),
    ),
    state(
      'lamp-output',
      'W/m2',
      outputs.map(({ on, irradianceWPerM2 }) => ({
        x: daysFrom(facts.today, on),
        y: irradianceWPerM2,
      })),
    ),
  ];
}

function stateOfTrend(
  name: TrendName,
  unit: TrendState['unit'],
  series: readonly Point[],
  tFactor: TFactor,
): TrendState {
  const trend = trendOf(series, tFactor);
  return {
    name,
    unit,
    latest: series.at(-1)?.y ?? null,
    readings: series.length,
    perDay: trend?.slope ?? null,
    perDayHalfWidth: trend?.slopeHalfWidth ?? null,
    direction: trend?.direction ?? null,
  };
}

function perHour(outputs: readonly LampOutput[], tFactor: TFactor) {
  const points = outputs.map(({ lampOnH, irradianceWPerM2 }) => ({
    x: lampOnH,
    y: irradianceWPerM2,
  }));
  const trend = trendOf(points, tFactor);
  return {
    perHourWPerM2: trend?.slope ?? null,
    perHourHalfWidthWPerM2: trend?.slopeHalfWidth ?? null,
  };
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);
