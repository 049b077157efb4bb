/**
 * How deep a vacuum this unit can draw at the local air pressure, and what it leaves there. A pump
 * with a maximum compression ratio reaches a fixed share of the atmosphere, whatever its pressure.
 * A profile that asks for more gets the allowed value, and a person is informed. Nothing else in a
 * profile is changed.
 */
import type { UnstampedEvent } from '../core/events.ts';
import type { Phrase } from '../core/phrases.ts';
import { kPaFromPa } from '../core/units.ts';
import type { Profile } from './profile.ts';

/**
 * Margin above what the pump can just reach: there its flow is used up, and the slightest leak or a
 * sensor that reads high would keep the unit waiting. At 1.2 a fifth of the pump's efficiency is
 * left; at sea level with a ratio of 12.5 the margin is 1.6 kPa, against 0.8 kPa of sensor offset.
 */
const MARGIN = 1.2;
/** A vacuum that leaves more of the air than this draws too little out of a break to be useful. */
const MOST_AIR_LEFT = 0.6;
/** The seal is proved with at least a fifth of an atmosphere. */
const SEAL_PULL_MOST_LEFT = 0.8;
/** Standard atmosphere, Pa, exact. */
const SEA_LEVEL_PA = 101_325;
/** Weather changes the air pressure by some 3 %, which is not reported (from memory). */
const MORE_THAN_WEATHER = 1.1;

/**
 * Weather at one place changes the air pressure by less from one job to the next: the fastest
 * deepening lows fall by 2.4 kPa in a day (Sanders and Gyakum, Mon. Weather Rev. 108 (1980)
 * 1589-1606, from memory). It is what 250 m of height make.
 */
const MOST_WEATHER_PA = 3_000;

/** Whether the air differs from that of the unit's last job by more than weather does. */
export const movedAway = (atmospherePa: number, airLastJobPa: number | null): boolean =>
  airLastJobPa !== null && Math.abs(atmospherePa - airLastJobPa) > MOST_WEATHER_PA;

export interface VacuumPlan {
  /** The vacuum to draw, absolute. */
  readonly vacuumPa: number;
  readonly sealPullPa: number;
  readonly airLeftRatio: number;
  readonly adapted: readonly Extract<UnstampedEvent, { kind: 'adapted' }>[];
  /** Whether a person should see it before the job begins. */
  readonly toTell: boolean;
}

/** The deepest vacuum, absolute, that is asked of the pump at this air pressure. */
export const deepestPa = (atmospherePa: number, greatestRatio: number): number =>
  (MARGIN * atmospherePa) / greatestRatio;

export function vacuumPlanOf(
  atmospherePa: number,
  { vacuum, sealCheck }: Pick<Profile, 'vacuum' | 'sealCheck'>,
  greatestRatio: number,
): VacuumPlan {
  const deepest = deepestPa(atmospherePa, greatestRatio);
  const vacuumPa = Math.max(vacuum.setPointPa, deepest);
  const shallowest = Math.min(sealCheck.pullPa, SEAL_PULL_MOST_LEFT * atmospherePa);
  const sealPullPa = Math.max(shallowest, deepest);
  const reach = `this pump reaches ${kPaFromPa(deepest).toFixed(1)} kPa abs in air of ${kPaFromPa(atmospherePa).toFixed(1)} kPa`;
  const thin = `a pull must draw off a fifth of air of ${kPaFromPa(atmospherePa).toFixed(1)} kPa`;
  const adapted: VacuumPlan['adapted'] = [
    adaptedEvent('vacuum', vacuum.setPointPa, vacuumPa, reach),
    adaptedEvent(
      'seal-pull',
      sealCheck.pullPa,
      sealPullPa,
      sealPullPa < sealCheck.pullPa ? thin : reach,
    ),
  ].filter(({ askedPa, givenPa }) => askedPa !== givenPa);
  const airLeftRatio = vacuumPa / atmospherePa;
  const atSeaLevel = vacuum.setPointPa / SEA_LEVEL_PA;
  return {
    vacuumPa,
    sealPullPa,
    airLeftRatio,
    adapted,
    toTell: adapted.length > 0 || airLeftRatio > MORE_THAN_WEATHER * atSeaLevel,
  };
}

const adaptedEvent = (
  what: 'vacuum' | 'seal-pull',
  askedPa: number,
  givenPa: number,
  why: string,
): VacuumPlan['adapted'][number] => ({ kind: 'adapted', what, askedPa, givenPa, why });

/** The objection to this profile at this air pressure; null where there is none. */
export function vacuumUseless(
  atmospherePa: number,
  profile: Pick<Profile, 'vacuum' | 'sealCheck'>,
  greatestRatio: number,
): Phrase | null {
  const { airLeftRatio } = vacuumPlanOf(atmospherePa, profile, greatestRatio);
  if (airLeftRatio <= MOST_AIR_LEFT) return null;
  const share = (100 * airLeftRatio).toFixed(0);
  return { say: 'vacuum-of-no-use', with: { share, most: String(100 * MOST_AIR_LEFT) } };
}
