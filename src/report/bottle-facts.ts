/**
 * A bottle of resin as its file in the journal's header states it. Read loosely: a record is judged by
 * what it holds, and one from before bottles had files holds none.
 */

import { numberAt, textAt } from '../core/fields.ts';
import { isExpired, isOpenedTooLong, type ShelfLife } from '../core/shelf-life.ts';
import { kFromCelsius } from '../core/units.ts';

export interface BottleFact {
  readonly name: string;
  readonly lot: string;
  readonly shelfLife: ShelfLife | null;
  /** Temperatures of the glass at which this resin may be used; null where its file states none. */
  readonly glass: { readonly lowestK: number; readonly highestK: number } | null;
}

/** Of `file`, or null where no bottle was named. */
export function bottleFactOf(file: unknown): BottleFact | null {
  const name = textAt(file, 'name');
  const lot = textAt(file, 'lot');
  if (name === null || lot === null) return null;
  return { name, lot, shelfLife: shelfLifeOf(file), glass: glassOf(file) };
}

function shelfLifeOf(file: unknown): ShelfLife | null {
  const expiresOn = textAt(file, 'expiresOn');
  const usableAfterOpeningDays = numberAt(file, 'usableAfterOpeningDays');
  if (expiresOn === null || usableAfterOpeningDays === null) return null;
  return { expiresOn, openedOn: textAt(file, 'openedOn'), usableAfterOpeningDays };
}

function glassOf(file: unknown): BottleFact['glass'] {
  const lowestC = numberAt(file, 'glass', 'lowestC');
  const highestC = numberAt(file, 'glass', 'highestC');
  if (lowestC === null || highestC === null) return null;
  return { lowestK: kFromCelsius(lowestC), highestK: kFromCelsius(highestC) };
}

/** What of its dates had passed on a day, a line each; empty while it might be used. */
export function outOfDateWords(bottle: BottleFact | null, day: string): readonly string[] {
  const life = bottle?.shelfLife ?? null;
  if (bottle === null || life === null) return [];
  const named = `${bottle.name}, lot ${bottle.lot}`;
  const { expiresOn, openedOn, usableAfterOpeningDays: days } = life;
  return [
    ...(isExpired(life, day) ? [`${named}: expired on ${expiresOn}, used on ${day}`] : []),
    ...(openedOn !== null && isOpenedTooLong(life, day)
      ? [`${named}: opened on ${openedOn}, usable for ${days} days from then, used on ${day}`]
      : []),
  ];
}
