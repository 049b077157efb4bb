/**
 * Forecasts when the lamp's output falls below its limit with continued use: a straight line over
 * the days, with the range of days that its uncertainty allows. There is no forecast where readings
 * are few, span too short a time, or show no decline beyond their scatter.
 */
import { dayAfter, daysFrom } from '../core/calendar.ts';
import type { CareSettings } from './care-settings.ts';
import type { LampOutput } from './lamp-history.ts';
import { crossingOf, type TFactor, trendOf } from './trend.ts';

export type LampForecast =
  | { readonly kind: 'cannot-say-yet'; readonly why: string }
  | { readonly kind: 'below-now'; readonly on: string }
  /** Not within the time over which the straight line is trusted. */
  | { readonly kind: 'far'; readonly notBefore: string }
  /** `to` is null where it lies beyond the time over which the straight line is trusted. */
  | {
      readonly kind: 'day';
      readonly on: string;
      readonly from: string;
      readonly to: string | null;
    };

export interface ForecastFacts {
  /** Oldest first, all of one kind. */
  readonly outputs: readonly LampOutput[];
  readonly today: string;
}

export function forecastLamp(
  { outputs, today }: ForecastFacts,
  { lamp, forecast }: CareSettings,
  tFactor: TFactor,
): LampForecast {
  const cannot = (why: string): LampForecast => ({ kind: 'cannot-say-yet', why });
  const [first, last] = [outputs[0], outputs.at(-1)];
  if (first === undefined || last === undefined) return cannot('no readings');
  const limit = lamp.blockRatio * lamp.referenceWPerM2;
  if (last.irradianceWPerM2 < limit) return { kind: 'below-now', on: last.on };
  const { leastReadings, leastSpanDays, farthestDays } = forecast;
  if (outputs.length < leastReadings) {
    return cannot(`${outputs.length} of ${leastReadings} readings`);
  }
  const span = daysFrom(first.on, last.on);
  if (span < leastSpanDays) return cannot(`readings over ${span} of ${leastSpanDays} days`);
  const points = outputs.map(({ on, irradianceWPerM2: y }) => ({
    x: daysFrom(today, on),
    y,
  }));
  const trend = trendOf(points, tFactor);
  if (trend === null || trend.direction !== 'falling') {
    return cannot('no decline beyond the scatter');
  }
  const crossing = crossingOf(trend, limit, tFactor);
  if (crossing === null) return cannot('no decline beyond the scatter');
  const dayFrom = (x: number): string => dayAfter(today, Math.floor(Math.max(0, x)));
  if (crossing.from > farthestDays) return { kind: 'far', notBefore: dayFrom(farthestDays) };
  if (crossing.x > farthestDays) return { kind: 'far', notBefore: dayFrom(crossing.from) };
  return {
    kind: 'day',
    on: dayFrom(crossing.x),
    from: dayFrom(crossing.from),
    to: crossing.to > farthestDays ? null : dayAfter(today, Math.ceil(Math.max(0, crossing.to))),
  };
}
