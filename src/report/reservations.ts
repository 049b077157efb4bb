/**
 * Lists why a repair whose process stayed within its limits is still not called good: overridden
 * checks, expired resin, and findings that contradict what was stated. There is one row for each
 * reason. A row returns its evidence, one line each, and nothing where the reason does not hold.
 * Customers read the headlines.
 */
import { celsiusFromK } from '../core/units.ts';
import { outOfDateWords } from './bottle-facts.ts';
import type { ReservationFacts, SetAside } from './reservation-facts.ts';
import { celsiusWords, clockWords, kPaAbs, plainWords } from './words.ts';

interface ReservationRow {
  readonly id: string;
  /** Follows the verdict in a sentence, after "but" or "and". */
  readonly headline: string;
  readonly support: (facts: ReservationFacts) => readonly string[];
}

/**
 * How far a stated figure may differ from the measured one; demo values. A pane changes between
 * inspection and work, and the air pressure changes by less than this within a day (from memory).
 */
const STATED_WITHIN = { glassK: 5, airPa: 2000 } as const;

export const RESERVATION_ROWS = [
  {
    id: 'rules-forbid',
    headline: 'the rules chosen do not allow it',
    support: ({ assessment }) =>
      assessment?.answer === 'not-allowed-here' ? ruleLines(assessment) : [],
  },
  {
    id: 'rules-left-open',
    headline: 'the rules chosen left it to a person',
    support: ({ assessment }) =>
      assessment?.answer === 'needs-a-person' ? ruleLines(assessment) : [],
  },
  {
    id: 'damage-unsuited',
    headline: 'the kind of damage is unsuited to a repair',
    support: ({ assessment }) =>
      assessment === null || ['can', ''].includes(assessment.technical)
        ? []
        : orElse(assessment.technicalReasons, 'damage: a person had to decide'),
  },
  {
    id: 'resin-out-of-date',
    headline: 'the resin was past its date',
    support: ({ bottles, day }) => outOfDateWords(bottles.fill, day),
  },
  {
    id: 'pit-resin-out-of-date',
    headline: 'the pit resin was past its date',
    support: ({ bottles, day }) => outOfDateWords(bottles.pit, day),
  },
  {
    id: 'resin-set-aside',
    headline: 'a check of the resin was set aside',
    support: ({ setAside, bottles, day }) =>
      setAside
        .filter(
          ({ item }) =>
            (item === 'resin' && outOfDateWords(bottles.fill, day).length === 0) ||
            (item === 'pit-resin' && outOfDateWords(bottles.pit, day).length === 0),
        )
        .flatMap(againstLines),
  },
  {
    id: 'check-set-aside',
    headline: 'a check of the unit was set aside',
    support: ({ setAside }) =>
      setAside
        .filter(({ item }) => !['assessment', 'resin', 'pit-resin'].includes(item))
        .flatMap(againstLines),
  },
  {
    id: 'stated-dry-found-wet',
    headline: 'the break was stated to be dry and was found wet',
    support: ({ stated, sealTests }) =>
      stated.moisture === 'dry'
        ? sealTests
            .filter(({ finding }) => finding === 'moisture')
            .map(
              ({ atS, why }) =>
                `intake sheet: dry; seal test at ${clockWords(atS)} min found moisture: ${why}`,
            )
        : [],
  },
  {
    id: 'glass-outside-resin',
    headline: 'the glass was too cold or too hot for the resin',
    support: ({ bottles, worked }) =>
      (['fill', 'pit'] as const).flatMap((use) => {
        const [bottle, seen] = [bottles[use], worked[use]];
        const limits = bottle?.glass ?? null;
        if (bottle === null || limits === null || seen === null) return [];
        if (seen.lowestK >= limits.lowestK && seen.highestK <= limits.highestK) return [];
        return [
          `glass ${spanWords(seen)} while ${bottle.name}, lot ${bottle.lot}, was worked; it allows ${spanWords(limits)}`,
        ];
      }),
  },
  {
    id: 'not-as-stated',
    headline: 'glass or air were not as stated',
    support: ({ stated, found }) => [
      ...unlike('glass', stated.glassK, found.glassK, STATED_WITHIN.glassK, celsiusWords),
      ...unlike('air', stated.airPa, found.airPa, STATED_WITHIN.airPa, kPaAbs),
    ],
  },
  {
    id: 'bubbles-stayed',
    headline: 'bubbles still rose when the resin was pressed in',
    support: ({ pressedOnBubblesS }) =>
      pressedOnBubblesS.map(
        (atS) =>
          `at ${clockWords(atS)} min the longest vacuum was over, bubbles still rose, and a person went on`,
      ),
  },
  {
    id: 'clock-or-light-in-doubt',
    headline: 'the clock or the light sensor cannot be relied on',
    support: ({ invalidatingAlarms, alarms }) =>
      alarms
        .filter(({ alarm }) => invalidatingAlarms.includes(alarm))
        .map(
          ({ alarm, raisedAtS, cause }) =>
            `alarm ${plainWords(alarm)} at ${clockWords(raisedAtS)} min: ${cause}`,
        ),
  },
] as const satisfies readonly ReservationRow[];
export type ReservationId = (typeof RESERVATION_ROWS)[number]['id'];

export interface Reservation {
  readonly id: ReservationId;
  readonly headline: string;
  readonly support: readonly string[];
}

/** The rows that hold, in order. */
export const reservationsOf = (facts: ReservationFacts): readonly Reservation[] =>
  RESERVATION_ROWS.flatMap(({ id, headline, support }) => {
    const lines = support(facts);
    return lines.length === 0 ? [] : [{ id, headline, support: lines }];
  });

const orElse = (lines: readonly string[], otherwise: string): readonly string[] =>
  lines.length > 0 ? lines : [otherwise];

const ruleLines = ({ rules }: NonNullable<ReservationFacts['assessment']>): readonly string[] =>
  orElse(
    rules.map(({ words, ruleSet, edition, measured }) =>
      [[ruleSet, edition].filter((part) => part !== '').join(', '), words, measured]
        .filter((part) => part !== '')
        .join(': '),
    ),
    'no rule is named',
  );

const againstLines = ({ item, reason, against }: SetAside): readonly string[] =>
  orElse(against, `${plainWords(item)}: ${reason}`);

const spanWords = ({ lowestK, highestK }: { lowestK: number; highestK: number }): string =>
  `${celsiusFromK(lowestK).toFixed(1)} to ${celsiusWords(highestK)}`;

const unlike = (
  what: string,
  stated: number | null,
  found: number | null,
  within: number,
  words: (value: number) => string,
): readonly string[] =>
  stated === null || found === null || Math.abs(stated - found) <= within
    ? []
    : [`${what}: stated ${words(stated)}; measured ${words(found)}`];

/** "But" qualifies a verdict that sounds good; "and" adds to one that does not. */
export const joinOf = (process: string): 'but' | 'and' =>
  process.startsWith('process within its limits') ? 'but' : 'and';

const MOST_IN_HEADLINE = 3;

/** The verdict in plain words, followed by its reservations. */
export function headlineOf(
  verdict: string,
  headlines: readonly string[],
  join: 'but' | 'and' = 'but',
): string {
  if (headlines.length === 0) return verdict;
  const left = headlines.length - MOST_IN_HEADLINE;
  const named = headlines.slice(0, MOST_IN_HEADLINE).join('; ');
  return `${verdict}, ${join} ${named}${left > 0 ? `; and ${left} more` : ''}`;
}
