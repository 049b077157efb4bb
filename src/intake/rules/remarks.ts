/**
 * Reasons to ask a person although no rule is broken: no rule set for this place, none that binds
 * this vehicle, none about repairs, an edition not in force, or figures from memory. Rules
 * satisfied under such terms are no permission.
 */

import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { openAnswers } from '../sheet/measures.ts';
import { coverOf, coverRestsOn } from './cover.ts';
import { type CheckedRule, named, type Remark } from './reason.ts';
import type { RuleSet } from './rule-set.ts';
import { outOfForceText, PROVENANCE_WORDS } from './rule-words.ts';
import { anyOf, zoneRestsOn } from './zones.ts';

export const remarksOn = (
  sheet: IntakeSheet,
  chosen: readonly RuleSet[],
  checked: readonly CheckedRule[],
): readonly Remark[] => [
  ...onThePlace(sheet, chosen, checked),
  ...chosen
    .filter((set) => coverOf(sheet, set) !== false)
    .flatMap((set) => onTheEdition(sheet, set)),
  ...chosen.flatMap((set) => onMemory(set, checked)),
];

/**
 * Without a rule there is no permission: a person is asked unless one set certainly binds this
 * vehicle. A shop's own set says nothing about the place.
 */
function onThePlace(
  sheet: IntakeSheet,
  chosen: readonly RuleSet[],
  checked: readonly CheckedRule[],
): readonly Remark[] {
  const ruleSets = chosen.filter(({ force }) => force !== 'shop');
  if (ruleSets.length === 0) {
    const words = 'No rule set for this place was chosen, so its rules are not known here.';
    return [{ id: 'no-rule-set', set: null, words, open: [] }];
  }
  const covered = ruleSets.map((set) => coverOf(sheet, set));
  if (anyOf(covered) === true) return onRepairing(sheet, ruleSets, checked);
  return ruleSets.flatMap((set, at): Remark[] => [
    covered[at] === false
      ? {
          id: 'not-covered',
          set: named(set),
          words: `"${set.name}" does not cover this vehicle, and no other chosen set does.`,
          open: [],
        }
      : {
          id: 'perhaps-not-covered',
          set: named(set),
          words: `It cannot be determined whether "${set.name}" covers this vehicle.`,
          open: openAnswers(sheet, coverRestsOn(sheet, set)),
        },
  ]);
}

/** A limit on the mark left in the glass does not say that the break may be filled. */
function onRepairing(
  sheet: IntakeSheet,
  ruleSets: readonly RuleSet[],
  checked: readonly CheckedRule[],
): readonly Remark[] {
  const onRepairs = checked.filter(({ set }) => set?.kind === 'repair' && set.force !== 'shop');
  if (onRepairs.some(({ applies }) => applies === true)) return [];
  const words =
    onRepairs.length === 0
      ? 'The chosen rules limit the mark left in the glass; none of them says whether the damage may be repaired.'
      : 'No chosen rule on repairing certainly applies to this damage on this vehicle.';
  // While answers are missing, a rule may still turn out to apply.
  const perhaps = ruleSets.filter(({ id }) =>
    onRepairs.some(({ set, applies }) => set?.id === id && applies === 'unknown'),
  );
  const restsOn = perhaps.flatMap((set) => [
    ...coverRestsOn(sheet, set),
    ...zoneRestsOn(sheet, set.zones),
  ]);
  return [{ id: 'no-repair-rule', set: null, words, open: openAnswers(sheet, restsOn) }];
}

function onTheEdition({ lookedOn }: IntakeSheet, set: RuleSet): readonly Remark[] {
  const { outOfForce, inForceFrom } = set;
  // Dates as YYYY-MM-DD sort as text.
  if (inForceFrom !== null && inForceFrom > lookedOn) {
    const words = `"${set.name}" is in force from ${inForceFrom} on, after this inspection.`;
    return [{ id: 'not-yet-in-force', set: named(set), words, open: [] }];
  }
  if (outOfForce === null) return [];
  const known = `${PROVENANCE_WORDS[outOfForce.provenance]}: ${outOfForce.source}`;
  const words = `"${set.name}" is out of force in this edition: ${outOfForceText(outOfForce)} (${known}). Compare the damage with the edition in force.`;
  return [{ id: 'out-of-force', set: named(set), words, open: [] }];
}

function onMemory(set: RuleSet, checked: readonly CheckedRule[]): readonly Remark[] {
  const rules = checked.filter(
    (rule) =>
      rule.set?.id === set.id && rule.outcome === 'holds' && rule.provenance === 'from-memory',
  );
  if (rules.length === 0) return [];
  const ids = rules.map(({ id }) => id).join(', ');
  const words = `These rules of "${set.name}" that the damage satisfies are from memory and unconfirmed: ${ids}. Look them up in the text.`;
  return [{ id: 'from-memory', set: named(set), words, open: [] }];
}
