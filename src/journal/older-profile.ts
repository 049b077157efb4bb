/**
 * The profile in a journal's header as today's files state it. Older ones stated their targets as
 * the sensor reads them, above the film, instead of at the resin. The header itself stays as it was
 * written, because its hash vouches for it.
 */
import { valueAt } from '../core/settings.ts';

/** What an older profile that did not state its film was taken to have. */
const FILM_PERCENT = 90;

/** `targetMJPerCm2` was read above the film; the film's share of it reaches the resin. */
export function withTargetsAtResin(profile: unknown): unknown {
  if (!isObject(profile)) return profile;
  const film = Number(valueAt(profile, ['cure', 'filmPassesPercent']) ?? FILM_PERCENT);
  const migrated = Object.entries(profile).map(([name, section]) => {
    if (!isObject(section)) return [name, section];
    const { targetMJPerCm2: atSensor, ...rest } = section;
    if (typeof atSensor !== 'number') return [name, section];
    return [name, { targetAtResinMJPerCm2: (atSensor * film) / 100, ...rest }];
  });
  return Object.fromEntries(migrated);
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
