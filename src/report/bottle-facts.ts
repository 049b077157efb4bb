/**
 * Reads a bottle of resin from its file in the journal's header. Missing fields become null: a
 * record is judged by what it holds, and journals older than bottle files hold none.
 */

import { numberAt, textAt } from '../core/fields.ts';
import { isExpired, isOpenedTooLong, type ShelfLife } from '../core/shelf-life.ts';
import { kFromCelsius } from '../core/units.ts';

export interface BottleFact {
  readonly name: string;
  readonly lot: string;
  readonly shelfLife: ShelfLife | null;
  /**
   * Glass temperatures at which this resin may be used; null where the bottle's file states none.
   */
  readonly glass: { readonly lowestK: number; readonly highestK: number } | null;
  /** The light that sets this resin; null where the bottle's file does not say. */
  readonly light: { readonly fromNm: number; readonly toNm: number } | null;
}

/** Returns null where no bottle was named. */
export function bottleFactOf(file: unknown): BottleFact | null {
  const name = textAt(file, 'name');
  const lot = textAt(file, 'lot');
  if (name === null || lot === null) return null;
  return { name, lot, shelfLife: shelfLifeOf(file), glass: glassOf(file), light: lightOf(file) };
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

function lightOf(file: unknown): BottleFact['light'] {
  const fromNm = numberAt(file, 'light', 'fromNm');
  const toNm = numberAt(file, 'light', 'toNm');
  return fromNm === null || toNm === null ? null : { fromNm, toNm };
}

/**
 * One line for each date that had passed on the given day; empty while the bottle could be used.
 */
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
