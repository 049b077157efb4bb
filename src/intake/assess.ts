/**
 * Answers whether a damage may be repaired here, from the intake sheet and the chosen rule sets,
 * and apart from that whether a repair can succeed. Every rule is put to the sheet and kept with
 * its outcome; what speaks against is listed with measure, limit, edition, source and provenance.
 * An answer that a rule needs and nobody knows asks for a person, never passes.
 */
import type { IntakeSheet } from './intake-sheet.ts';
import { judge, type Outcome, type Reach } from './judge-condition.ts';
import { type Answer, type MeasureName, openAnswers } from './measures.ts';
import type { Condition, Provenance, RuleSet } from './rule-set.ts';
import { TECHNICAL_EXCLUSIONS, type TechnicalExclusion } from './technical-exclusions.ts';
import { allOf, anyOf, inOneOf, type Verdict, zoneRestsOn, zoneVerdicts } from './zones.ts';

export type LegalAnswer = 'allowed' | 'not-allowed-here' | 'needs-a-person';
export type TechnicalAnswer = 'can' | 'cannot' | 'needs-a-person';

export interface SetNamed {
  readonly id: string;
  readonly name: string;
  readonly jurisdiction: string;
  readonly force: RuleSet['force'];
  readonly kind: RuleSet['kind'];
  readonly edition: string;
  readonly source: string;
}

/** One rule, what was measured, and what came of it. */
export interface CheckedRule {
  readonly id: string;
  readonly outcome: Outcome;
  /** Null for a technical exclusion, which no place has written. */
  readonly set: SetNamed | null;
  /** Zones in which the damage counts or may count; null where the rule holds anywhere. */
  readonly zone: string | null;
  readonly about: MeasureName;
  readonly measured: Answer;
  readonly limit: Condition['limit'] | null;
  readonly forbids: Condition['forbids'] | null;
  readonly means: 'not-allowed' | 'cannot' | 'needs-a-person';
  readonly words: string;
  readonly provenance: TechnicalExclusion['provenance'] | Provenance;
  readonly source: string;
  /** Paths of the answers in the sheet that leave it open. */
  readonly open: readonly string[];
}

/** What speaks for asking a person although no rule was judged. */
export interface Remark {
  readonly id: 'no-rule-set' | 'not-covered' | 'perhaps-not-covered';
  readonly set: SetNamed | null;
  readonly words: string;
  readonly open: readonly string[];
}

export type Reason = CheckedRule | Remark;
export const isRule = (reason: Reason): reason is CheckedRule => 'outcome' in reason;

export interface Assessment {
  readonly answer: LegalAnswer;
  readonly reasons: readonly Reason[];
  readonly technical: {
    readonly answer: TechnicalAnswer;
    readonly reasons: readonly CheckedRule[];
    readonly checked: readonly CheckedRule[];
  };
  readonly checked: readonly CheckedRule[];
  readonly disclaimer: string;
}

export const DISCLAIMER =
  'This compares stated answers with the rules named here, in the editions named here. Local law and the licensed person decide. A repair improves the glass and does not make it new; a mark may remain visible.';

export function assess(sheet: IntakeSheet, ruleSets: readonly RuleSet[]): Assessment {
  const checked = ruleSets.flatMap((set) => checkSet(sheet, set));
  const remarks = remarksOn(sheet, ruleSets);
  const reasons = [...checked.filter(speaksAgainst), ...remarks];
  const technical = TECHNICAL_EXCLUSIONS.map((row) => checkExclusion(sheet, row));
  const against = technical.filter(speaksAgainst);
  return {
    answer: broken(checked, 'not-allowed') ? 'not-allowed-here' : personOr(reasons, 'allowed'),
    reasons,
    technical: {
      answer: broken(technical, 'cannot') ? 'cannot' : personOr(against, 'can'),
      reasons: against,
      checked: technical,
    },
    checked,
    disclaimer: DISCLAIMER,
  };
}

const speaksAgainst = ({ outcome }: CheckedRule): boolean =>
  outcome === 'broken' || outcome === 'unknown';

const broken = (rules: readonly CheckedRule[], means: CheckedRule['means']): boolean =>
  rules.some((rule) => rule.outcome === 'broken' && rule.means === means);

const personOr = <T>(reasons: readonly Reason[], clear: T): T | 'needs-a-person' =>
  reasons.length === 0 ? clear : 'needs-a-person';

function checkSet(sheet: IntakeSheet, set: RuleSet): readonly CheckedRule[] {
  const zones = zoneVerdicts(sheet, set.zones);
  const covered = coverOf(sheet, set);
  return set.rules.map((rule) => {
    const inZone = inOneOf(zones, rule.in);
    const reach: Reach = {
      applies: allOf([covered, inZone]),
      restsOn: [
        ...(covered === 'unknown' ? COVER_RESTS_ON : []),
        ...(inZone === 'unknown' ? zoneRestsOn(sheet, set.zones) : []),
      ],
    };
    const counted = zones.filter(
      ({ zone, countsHere }) => countsHere !== false && rule.in.includes(zone.id),
    );
    return {
      id: rule.id,
      ...judge(rule, sheet, reach),
      set: named(set),
      zone: counted.length === 0 ? null : counted.map(({ zone }) => zone.words).join(' or '),
      about: rule.about,
      limit: rule.limit ?? null,
      forbids: rule.forbids ?? null,
      means: rule.then,
      words: rule.words,
      provenance: rule.provenance,
      source: rule.source,
    };
  });
}

function checkExclusion(sheet: IntakeSheet, row: TechnicalExclusion): CheckedRule {
  return {
    id: row.id,
    ...judge(row, sheet, { applies: true, restsOn: [] }),
    set: null,
    zone: null,
    about: row.about,
    limit: row.limit ?? null,
    forbids: row.forbids ?? null,
    means: row.means,
    words: row.words,
    provenance: row.provenance,
    source: row.source,
  };
}

const named = ({ id, name, jurisdiction, force, kind, edition, source }: RuleSet): SetNamed => ({
  id,
  name,
  jurisdiction,
  force,
  kind,
  edition,
  source,
});

const COVER_RESTS_ON = ['vehicle.class', 'vehicle.grossMassKg'];

/** Whether a rule set binds this vehicle. */
function coverOf({ vehicle }: IntakeSheet, { covers }: RuleSet): Verdict {
  const { class: kind, grossMassKg } = vehicle;
  const byMass = (limitKg: number | null, within: (kg: number, limitKg: number) => boolean) =>
    limitKg === null ? true : grossMassKg === 'unknown' ? 'unknown' : within(grossMassKg, limitKg);
  return allOf([
    covers.vehicles === 'all' || (kind === 'unknown' ? 'unknown' : covers.vehicles.includes(kind)),
    byMass(covers.overKg, (kg, limitKg) => kg > limitKg),
    byMass(covers.upToKg, (kg, limitKg) => kg <= limitKg),
  ]);
}

/**
 * No rule at all is no permission: a person is asked unless one set certainly binds this vehicle. A
 * shop's own set says nothing of the place.
 */
function remarksOn(sheet: IntakeSheet, chosen: readonly RuleSet[]): readonly Remark[] {
  const ruleSets = chosen.filter(({ force }) => force !== 'shop');
  if (ruleSets.length === 0) {
    const words = 'No rule set of this place was chosen, so nothing here says what holds in it.';
    return [{ id: 'no-rule-set', set: null, words, open: [] }];
  }
  const covered = ruleSets.map((set) => coverOf(sheet, set));
  const any = anyOf(covered);
  if (any === true) return [];
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
