/**
 * How long the longest leg may grow in the course of a repair until a rule that was satisfied speaks
 * against it: the rules that judged the damage judge it again, longer and longer. A leg that grows
 * makes the break as much wider and brings it as much nearer to others, whichever way it points.
 * Edges and zones see the wider break about its pit, not the one leg.
 */
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { type Assessment, assess } from './assess.ts';
import { isRule } from './reason.ts';
import type { RuleSet } from './rule-set.ts';

export interface LegLimit {
  /** The longest that no further rule speaks against, in whole mm, as a person can measure it. */
  readonly longestMm: number;
  /** What the rule that ends it says, and whose it is. */
  readonly rule: string;
}

/** The longest leg that a job sheet takes. */
const LONGEST_MM = 400;

/** Null where no rule ends it, or nobody knows how long the leg is. */
export function legLimitOf(sheet: IntakeSheet, ruleSets: readonly RuleSet[]): LegLimit | null {
  const { longestLegMm } = sheet.damage;
  if (longestLegMm === 'unknown') return null;
  const before = new Set(against(assess(sheet, ruleSets)).keys());
  for (let mm = Math.ceil(longestLegMm); mm <= LONGEST_MM; mm++) {
    const grown = against(assess(withLeg(sheet, longestLegMm, mm), ruleSets));
    for (const [key, rule] of grown) {
      if (!before.has(key)) return { longestMm: Math.max(mm - 1, Math.floor(longestLegMm)), rule };
    }
  }
  return null;
}

function withLeg(sheet: IntakeSheet, fromMm: number, toMm: number): IntakeSheet {
  const { damage, place } = sheet;
  const grown = toMm - fromMm;
  const wider = (mm: number | 'unknown') => (mm === 'unknown' ? mm : mm + grown);
  const nearer = (mm: number | 'unknown' | null) =>
    typeof mm === 'number' ? Math.max(0, mm - grown) : mm;
  return {
    ...sheet,
    damage: {
      ...damage,
      type: WITH_A_LEG[damage.type] ?? damage.type,
      longestLegMm: toMm,
      diameterMm: wider(damage.diameterMm),
    },
    place: {
      ...place,
      otherDamageMm: nearer(place.otherDamageMm),
      earlierRepairMm: nearer(place.earlierRepairMm),
    },
  };
}

/** A ring that grows a leg is no plain ring any more. */
const WITH_A_LEG: Readonly<Partial<Record<IntakeSheet['damage']['type'], 'combination-break'>>> = {
  bullseye: 'combination-break',
  'half-moon': 'combination-break',
};

/** The words of each objection, by a key that tells it from the others. */
function against({ reasons, technical }: Assessment): ReadonlyMap<string, string> {
  return new Map(
    [...reasons, ...technical.reasons].map((reason) => {
      const whose = reason.set === null ? '' : ` (${reason.set.name})`;
      const outcome = isRule(reason) ? reason.outcome : '';
      return [`${reason.set?.id ?? ''} ${reason.id} ${outcome}`, `${reason.words}${whose}`];
    }),
  );
}
