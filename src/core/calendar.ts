/**
 * Calendar days, written YYYY-MM-DD and counted in UTC, so that a day is always 24 h. Nothing here
 * reads today's date: it comes with the data.
 */

const DAY_MS = 86_400_000;

/** Days since 1970-01-01. */
// biome-ignore lint/style/noRestrictedGlobals: parses a given date, reads no clock
const dayNumber = (date: string): number => Date.parse(`${date}T00:00:00Z`) / DAY_MS;

/** Days from one date to another; negative where the other is earlier. */
export const daysFrom = (from: string, to: string): number => dayNumber(to) - dayNumber(from);

/** The date a number of whole days later. */
export const dayAfter = (date: string, days: number): string =>
  // biome-ignore lint/style/noRestrictedGlobals: computes from a given date, reads no clock
  new Date((dayNumber(date) + days) * DAY_MS).toISOString().slice(0, 10);
