/**
 * Judges one condition on an intake sheet: does it apply, and does it hold? A missing answer stays
 * "unknown" through every step. A condition therefore holds only if it would hold for every
 * possible answer, and is broken only if no possible answer satisfies it. A value exactly at the
 * limit is judged by the limit's comparison. `assess.ts` decides the consequences.
 */
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { type Answer, MEASURES, type Measure, openAnswers } from '../sheet/measures.ts';
import type { Condition, Limit } from './rule-set.ts';
import { allOf, type Verdict } from './zones.ts';

export type Outcome = 'holds' | 'broken' | 'unknown' | 'does-not-apply';

/** Whether a condition applies for reasons outside it: vehicle and zone. */
export interface Reach {
  readonly applies: Verdict;
  readonly restsOn: readonly string[];
}

export interface Judgement {
  readonly outcome: Outcome;
  /** Whether the condition applies to this damage: zone, vehicle and its own `when`. */
  readonly applies: Verdict;
  readonly measured: Answer;
  /** Paths of the missing answers that leave it open; empty unless "unknown". */
  readonly open: readonly string[];
}

export function judge(condition: Condition, sheet: IntakeSheet, reach: Reach): Judgement {
  const measure: Measure = MEASURES[condition.about];
  const measured = measure.of(sheet);
  const asked = Object.entries(condition.when).map(([name, wanted]) => ({
    measure: MEASURES[name as keyof typeof MEASURES] as Measure,
    wanted,
  }));
  const applies = allOf([
    reach.applies,
    ...asked.map(({ measure, wanted }) => isOne(measure.of(sheet), wanted)),
  ]);
  const outcome = outcomeOf(applies, holds(condition, measured));
  const restsOn = [
    ...(reach.applies === 'unknown' ? reach.restsOn : []),
    ...asked.flatMap(({ measure }) => measure.restsOn(sheet)),
    ...measure.restsOn(sheet),
  ];
  const open = outcome === 'unknown' ? openAnswers(sheet, restsOn) : [];
  return { outcome, applies, measured, open };
}

function outcomeOf(applies: Verdict, held: Verdict): Outcome {
  if (applies === false) return 'does-not-apply';
  if (held === true) return 'holds';
  return applies === true && held === false ? 'broken' : 'unknown';
}

const isOne = (answer: Answer, wanted: readonly (string | boolean)[]): Verdict =>
  answer === 'unknown' ? 'unknown' : wanted.some((one) => one === answer);

function holds({ limit, forbids }: Condition, measured: Answer): Verdict {
  if (measured === 'unknown') return 'unknown';
  if (forbids !== undefined) return !forbids.some((answer) => answer === measured);
  // Without a measured value no limit is broken; the schema requires a limit for every number.
  if (limit === undefined || typeof measured !== 'number') return true;
  return WITHIN[limit.is](measured, limitValue(limit));
}

const WITHIN: Readonly<Record<Limit['is'], (value: number, limit: number) => boolean>> = {
  'at-most': (value, limit) => value <= limit,
  'less-than': (value, limit) => value < limit,
  'at-least': (value, limit) => value >= limit,
};

/** In the unit of the sheet. Multiplies before dividing, so that 1.5 in is exactly 38.1 mm. */
export const limitValue = ({ value, unit }: Limit): number =>
  unit === 'in' ? (value * 254) / 10 : value;
