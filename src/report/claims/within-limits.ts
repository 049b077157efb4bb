/** The ground that what a sensor read stayed between the lowest and the highest allowed. */
import { figure, type Saying } from '../../core/sayings.ts';
import { say } from '../language.ts';
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
    const bound = (value: number | null) =>
      value === null ? say('lines.no-limit') : figure(inWords(value));
    const span = (low: number | null, high: number | null): Saying =>
      say('lines.range', { low: bound(low), high: bound(high) });
    const { lowestSeen, highestSeen, lowestAllowed, highestAllowed } = row;
    const words = say('lines.seen-and-allowed', {
      seen: span(lowestSeen, highestSeen),
      allowed: span(lowestAllowed, highestAllowed),
    });
    return [row.within ? supports(by, words) : objects(outside, words)];
  };
