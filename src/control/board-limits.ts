/**
 * The limits for the board's own protection: the unit's limits as raw counts and times, slightly
 * wider than the controller's own limits, so that the board trips only when the controller has
 * failed to act. The board accepts them only where they tighten what is compiled into it.
 */
import { FULL_SCALE_COUNTS } from '../core/frame.ts';
import { placeOfAlarm } from '../safety/alarm-table.ts';
import { glassKOf, pressurePaOf, thermistorKOf } from '../signal/channels.ts';
import type { UnitSettings } from './unit-settings.ts';

export interface BoardLimits {
  /** Highest counts of the pressure channel. */
  readonly pressureCeiling: number;
  /** Lowest counts of the heat sink's channel; a hotter thermistor reads lower. */
  readonly heatSinkFloor: number;
  readonly longestLampOnS: number;
  /** How long outputs remain valid without being renewed. */
  readonly leaseMs: number;
  /** Lowest counts of the glass channel while the lamp burns. */
  readonly glassFloor: number;
}

/**
 * The board sees absolute pressure and knows no atmosphere: the highest possible one is assumed.
 */
const HIGHEST_ATMOSPHERE_PA = 108_500;
const PRESSURE_MARGIN_PA = 5_000;
const HEAT_SINK_MARGIN_K = 5;
const GLASS_MARGIN_K = 5;
const LEASE_MS = 500;

export function boardLimitsOf(unit: UnitSettings): BoardLimits {
  const { channels, limits, alarms } = unit;
  const highestPa = limits.highestPressureGaugePa + HIGHEST_ATMOSPHERE_PA + PRESSURE_MARGIN_PA;
  const lampHot = alarms[placeOfAlarm('lamp-hot')];
  if (lampHot === undefined) throw new Error('no limit for the lamp heat sink');
  const hottestK = lampHot.limitSI + HEAT_SINK_MARGIN_K;
  return {
    pressureCeiling:
      COUNTS.filter(reads((counts) => pressurePaOf(counts, channels), highestPa)).at(-1) ?? 0,
    heatSinkFloor:
      COUNTS.find(reads((counts) => thermistorKOf(counts, channels), hottestK)) ??
      FULL_SCALE_COUNTS,
    longestLampOnS: Math.round(limits.longestLampOnS),
    leaseMs: LEASE_MS,
    glassFloor:
      COUNTS.find(
        reads((counts) => glassKOf(counts, channels), limits.highestGlassK + GLASS_MARGIN_K),
      ) ?? FULL_SCALE_COUNTS,
  };
}

const COUNTS = Array.from({ length: FULL_SCALE_COUNTS + 1 }, (_, counts) => counts);

/** Whether counts read as a valid value of at most `highest`. */
const reads =
  (toValue: (counts: number) => number | null, highest: number) =>
  (counts: number): boolean =>
    (toValue(counts) ?? Number.POSITIVE_INFINITY) <= highest;
