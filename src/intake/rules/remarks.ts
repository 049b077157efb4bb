/**
 * What speaks for asking a person although no rule is broken: no rule set of the place, none that
 * binds this vehicle, none that says whether a repair may be made, an edition that is out of force,
 * figures from memory. Rules that were kept under such terms are no permission.
 */

import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { openAnswers } from '../sheet/measures.ts';
import { COVER_RESTS_ON, coverOf } from './cover.ts';
import { type CheckedRule, named, type Remark } from './reason.ts';
import type { RuleSet } from './rule-set.ts';
import { outOfForceText, PROVENANCE_WORDS } from './rule-words.ts';
import { anyOf } from './zones.ts';

export const remarksOn = (
  sheet: IntakeSheet,
  chosen: readonly RuleSet[],
  checked: readonly CheckedRule[],
): readonly Remark[] => [
  ...onThePlace(sheet, chosen, checked),
  ...chosen.filter((set) => coverOf(sheet, set) !== false).flatMap(onTheEdition),
  ...chosen.flatMap((set) => onMemory(set, checked)),
];

/**
 * No rule at all is no permission: a person is asked unless one set certainly binds this vehicle. A
 * shop's own set says nothing of the place.
 */
function onThePlace(
  sheet: IntakeSheet,
  chosen: readonly RuleSet[],
  checked: readonly CheckedRule[],
): readonly Remark[] {
  const ruleSets = chosen.filter(({ force }) => force !== 'shop');
  if (ruleSets.length === 0) {
    const words = 'No rule set of this place was chosen, so nothing here says what holds in it.';
    return [{ id: 'no-rule-set', set: null, words, open: [] }];
  }
  const covered = ruleSets.map((set) => coverOf(sheet, set));
  if (anyOf(covered) === true) return onRepairing(checked);
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
          words: `Whether "${set.name}" covers this vehicle cannot be told.`,
          open: openAnswers(sheet, COVER_RESTS_ON),
        },
  ]);
}

/** A limit on the mark that is left in the glass does not say that the break may be filled. */
function onRepairing(checked: readonly CheckedRule[]): readonly Remark[] {
  const onRepairs = checked.filter(({ set }) => set?.kind === 'repair' && set.force !== 'shop');
  if (onRepairs.some(({ applies }) => applies === true)) return [];
  const words =
    onRepairs.length === 0
      ? 'The chosen rules limit the mark that is left in the glass; none of them says whether it may be repaired.'
      : 'No chosen rule on repairing certainly applies to this damage on this vehicle.';
  return [{ id: 'no-repair-rule', set: null, words, open: [] }];
}

function onTheEdition(set: RuleSet): readonly Remark[] {
  const { outOfForce } = set;
  if (outOfForce === null) return [];
  const known = `${PROVENANCE_WORDS[outOfForce.provenance]}: ${outOfForce.source}`;
  const words = `"${set.name}" is out of force in this edition: ${outOfForceText(outOfForce)} (${known}). Hold the damage against the edition in force.`;
  return [{ id: 'out-of-force', set: named(set), words, open: [] }];
}

function onMemory(set: RuleSet, checked: readonly CheckedRule[]): readonly Remark[] {
  const rules = checked.filter(
    (rule) =>
      rule.set?.id === set.id && rule.outcome === 'holds' && rule.provenance === 'from-memory',
  );
  if (rules.length === 0) return [];
  const ids = rules.map(({ id }) => id).join(', ');
  const words = `What the damage keeps to in "${set.name}" is from memory and was not confirmed: ${ids}. Look it up in the text.`;
  return [{ id: 'from-memory', set: named(set), words, open: [] }];
}
