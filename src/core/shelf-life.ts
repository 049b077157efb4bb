/**
 * How long a bottle of resin may be used: its own date, and the days that it keeps once opened. The
 * gate before a job and the record after it use the same comparison.
 */
import { dayAfter, daysFrom } from './calendar.ts';

export interface ShelfLife {
  /** Days as YYYY-MM-DD. */
  readonly expiresOn: string;
  /** Null while the bottle is sealed. */
  readonly openedOn: string | null;
  readonly usableAfterOpeningDays: number;
}

/** A bottle may still be used on the day that its label names. */
export const isExpired = ({ expiresOn }: ShelfLife, day: string): boolean => day > expiresOn;

export const isOpenedTooLong = (
  { openedOn, usableAfterOpeningDays }: ShelfLife,
  day: string,
): boolean => openedOn !== null && daysFrom(openedOn, day) > usableAfterOpeningDays;

/** The last day on which it may be used. */
export const usableUntil = ({ openedOn, usableAfterOpeningDays, expiresOn }: ShelfLife): string => {
  if (openedOn === null) return expiresOn;
  const opened = dayAfter(openedOn, Math.floor(usableAfterOpeningDays));
  return opened < expiresOn ? opened : expiresOn;
};
