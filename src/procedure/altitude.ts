/**
 * How deep a vacuum this unit can draw in the air around it, and what a vacuum leaves there. A pump
 * with a greatest ratio reaches a share of the atmosphere, wherever that stands; a profile that asks
 * for more is given what is allowed, and a person is told. Nothing else about a profile is changed.
 */
import type { UnstampedEvent } from '../core/events.ts';
import type { Phrase } from '../core/phrases.ts';
import { kPaFromPa } from '../core/units.ts';
import type { Profile } from './profile.ts';

/**
 * Over what the pump can just reach: there its flow is used up, and the least leak or a sensor that
 * reads high would keep the unit waiting. At 1.2 a fifth of the pump's efficiency is left, and at
 * sea level with a ratio of 12.5 it stands for 1.6 kPa, against 0.8 kPa of sensor offset.
 */
const MARGIN = 1.2;
/** A vacuum that leaves more of the air than this draws too little out of a break to be of use. */
const MOST_AIR_LEFT = 0.6;
/** The seal is proved by a fifth of an atmosphere at least. */
const SEAL_PULL_MOST_LEFT = 0.8;
/** Standard atmosphere, Pa, exact. */
const SEA_LEVEL_PA = 101_325;
/** Weather moves the pressure of the air by some 3 % and is not told (from memory). */
const MORE_THAN_WEATHER = 1.1;

export interface VacuumPlan {
  /** To be drawn, absolute. */
  readonly vacuumPa: number;
  readonly sealPullPa: number;
  readonly airLeftRatio: number;
  readonly adapted: readonly Extract<UnstampedEvent, { kind: 'adapted' }>[];
  /** Whether a person should see it before the job begins. */
  readonly toTell: boolean;
}

/** The deepest vacuum, absolute, that is asked of the pump in this air. */
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

/** What stands against this profile in this air; null where nothing does. */
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
