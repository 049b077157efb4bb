/**
 * Rules and reasons in words: what a rule limits, what was measured against it, and where it comes
 * from. The printed assessment and the table of all rules share them, so that both say the same.
 * `assess.ts` finds the reasons.
 */

import { type Answer, MEASURES, type Measure, type MeasureName } from '../sheet/measures.ts';
import { limitValue } from './judge-condition.ts';
import { type CheckedRule, isRule, type Reason } from './reason.ts';
import type { Limit, Provenance, RuleSet } from './rule-set.ts';

export const PROVENANCE_WORDS: Readonly<
  Record<Provenance | 'common-practice' | 'reasoning', string>
> = {
  seen: 'read in the text',
  copy: 'read in a copy of the text',
  'second-hand': 'retold second-hand',
  'from-memory': 'from memory, not confirmed',
  'not-read': 'text not read',
  shop: "the shop's own rule",
  'common-practice': 'common practice, no source',
  reasoning: 'own reasoning, no source',
};

const LIMIT_WORDS: Readonly<Record<Limit['is'], string>> = {
  'at-most': 'at most',
  'less-than': 'less than',
  'at-least': 'at least',
};

interface Limited {
  readonly about: MeasureName;
  readonly limit?: Limit | null | undefined;
  readonly forbids?: readonly (string | boolean)[] | null | undefined;
}

/** "at most 1.5 in (38.1 mm)", or "not: damp, wet". */
export function limitText({ about, limit, forbids }: Limited): string {
  if (limit == null)
    return `not: ${(forbids ?? []).map((one) => answerText(about, one)).join(', ')}`;
  const metric = limit.unit === 'in' ? ` (${rounded(limitValue(limit))} mm)` : '';
  return `${LIMIT_WORDS[limit.is]} ${unitText(limit.value, limit.unit)}${metric}`;
}

/** "22 mm", "yes", "none", "unknown". */
export function answerText(about: MeasureName, answer: Answer): string {
  const { unit }: Measure = MEASURES[about];
  if (answer === null) return 'none';
  if (typeof answer === 'number') return unitText(rounded(answer), unit ?? '');
  if (typeof answer === 'boolean') return answer ? 'yes' : 'no';
  return answer;
}

const unitText = (value: number, unit: string): string =>
  `${value} ${value === 1 && unit.endsWith('s') ? unit.slice(0, -1) : unit}`;

/** A tenth is finer than any measurement of a break. */
const rounded = (value: number): number => Math.round(value * 10) / 10;

/** "Germany: Ministry conditions (Verkehrsblatt 1986, issue 4, no. 55)". */
export const setText = (
  set: Pick<RuleSet, 'jurisdiction' | 'name' | 'edition' | 'outOfForce'>,
): string => `${set.jurisdiction}: ${set.name} (${editionText(set)})`;

/** An edition out of force is never named without saying so. */
export const editionText = ({ edition, outOfForce }: Pick<RuleSet, 'edition' | 'outOfForce'>) =>
  outOfForce === null ? edition : `${edition}, ${outOfForceText(outOfForce)}`;

/** "withdrawn 2023-03, superseded by BS AU 242b:2022". */
export const outOfForceText = ({
  supersededBy,
  withdrawnOn,
}: NonNullable<RuleSet['outOfForce']>): string =>
  [
    ...(withdrawnOn === null ? [] : [`withdrawn ${withdrawnOn}`]),
    ...(supersededBy === null ? [] : [`superseded by ${supersededBy}`]),
  ].join(', ');

/** The text's own words; where none are kept, it says why. */
export function quotationText({
  quote,
  provenance,
}: Pick<CheckedRule, 'quote' | 'provenance'>): string {
  if (quote !== null) return `"${quote}"`;
  return provenance === 'shop' ? "the shop's own" : provenance === 'seen' ? 'not kept' : 'not read';
}

/** "read in a copy of the text, looked at on 2026-11-26: annex of the notice". */
export function knownFromText({
  provenance,
  source,
  lookedOn,
}: Pick<CheckedRule, 'provenance' | 'source' | 'lookedOn'>): string {
  const looked = lookedOn === null ? '' : `, looked at on ${lookedOn}`;
  return `${PROVENANCE_WORDS[provenance]}${looked}: ${source}`;
}

/** Measured value against limit: "pit 6 mm; accepted: at most 5 mm". */
export const measuredText = (rule: CheckedRule): string =>
  `${MEASURES[rule.about].words} ${answerText(rule.about, rule.measured)}; accepted: ${limitText(rule)}`;

/** One reason as lines to print: its words, the measured value, its source. */
export function reasonLines(reason: Reason): readonly string[] {
  const missing = reason.open.length === 0 ? [] : [`Not known: ${reason.open.join(', ')}`];
  if (!isRule(reason)) return [reason.words, ...missing];
  return [
    reason.words,
    measuredText(reason),
    ...(reason.zone === null ? [] : [`Where: ${reason.zone}`]),
    ...missing,
    ...(reason.set === null ? [] : [setText(reason.set)]),
    knownFromText(reason),
    ...(reason.quote === null ? [] : [quotationText(reason)]),
  ];
}
