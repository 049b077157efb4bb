/**
 * Decides whether a damage may be repaired here, from the intake sheet and the chosen rule sets,
 * and separately whether a repair can succeed. Every rule is applied to the sheet and kept with its
 * outcome. Objections are listed with measured value, limit, edition, source and provenance. A
 * missing answer that a rule needs leads to a person, never to a pass. `remarks.ts` states what
 * else keeps satisfied rules from being a permission.
 */

import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { coverOf, coverRestsOn } from './cover.ts';
import { judge, type Reach } from './judge-condition.ts';
import { type CheckedRule, named, type Reason } from './reason.ts';
import { remarksOn } from './remarks.ts';
import type { RuleSet } from './rule-set.ts';
import { TECHNICAL_EXCLUSIONS, type TechnicalExclusion } from './technical-exclusions.ts';
import { allOf, inOneOf, zoneRestsOn, zoneVerdicts } from './zones.ts';

export type LegalAnswer = 'allowed' | 'not-allowed-here' | 'needs-a-person';
export type TechnicalAnswer = 'can' | 'cannot' | 'needs-a-person';

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

export const WHO_DECIDES = 'Local law decides, and the person who may decide under it.';

export const DISCLAIMER = `This compares stated answers with the rules named here, in the editions named here. ${WHO_DECIDES} A repair improves the glass and does not make it new; a mark may remain visible.`;

export function assess(sheet: IntakeSheet, ruleSets: readonly RuleSet[]): Assessment {
  const checked = ruleSets.flatMap((set) => checkSet(sheet, set));
  const remarks = remarksOn(sheet, ruleSets, checked);
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
        ...(covered === 'unknown' ? coverRestsOn(sheet, set) : []),
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
      quote: rule.quote,
      lookedOn: rule.lookedOn,
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
    quote: null,
    lookedOn: null,
  };
}
