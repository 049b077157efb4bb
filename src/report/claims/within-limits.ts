/** The ground that what a sensor read stayed between the lowest and the highest allowed. */
import type { LimitRow } from '../limit-rows.ts';
import { type Ground, objects, supports, type Witness } from './claim.ts';
import type { ObjectionId } from './objections.ts';

export const withinLimits =
  (
    what: LimitRow['what'],
    by: Witness,
    outside: ObjectionId,
    inWords: (valueSI: number) => string,
  ): Ground =>
  ({ limits }) => {
    const row = limits.find((one) => one.what === what);
    if (row === undefined || row.within === null) return [];
    const span = (low: number | null, high: number | null): string =>
      [low, high].map((value) => (value === null ? 'no limit' : inWords(value))).join(' to ');
    const { lowestSeen, highestSeen, lowestAllowed, highestAllowed } = row;
    const words = `${span(lowestSeen, highestSeen)} seen, ${span(lowestAllowed, highestAllowed)} allowed`;
    return [row.within ? supports(by, words) : objects(outside, words)];
  };
