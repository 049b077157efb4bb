/**
 * Reads a bottle of resin from its file in the journal's header. Missing fields become null: a
 * record is judged by what it holds, and journals older than bottle files hold none.
 */

import { numberAt, textAt } from '../core/fields.ts';
import type { Saying } from '../core/sayings.ts';
import { isExpired, isOpenedTooLong, type ShelfLife } from '../core/shelf-life.ts';
import { kFromCelsius } from '../core/units.ts';
import { say } from './language.ts';

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
export function outOfDateLines(
  { name, lot, shelfLife }: BottleFact,
  day: string,
): readonly Saying[] {
  if (shelfLife === null) return [];
  const bottle = say('lines.bottle', { name, lot });
  const { expiresOn: expires, openedOn: opened, usableAfterOpeningDays } = shelfLife;
  const days = String(usableAfterOpeningDays);
  return [
    ...(isExpired(shelfLife, day) ? [say('lines.bottle-expired', { bottle, expires, day })] : []),
    ...(opened !== null && isOpenedTooLong(shelfLife, day)
      ? [say('lines.bottle-open-long', { bottle, opened, days, day })]
      : []),
  ];
}
