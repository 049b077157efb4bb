/**
 * The reasons for an assessment's answer: rules applied to the sheet, each with the measured value
 * and outcome, and remarks that call for a person although no rule was judged. Data only;
 * `assess.ts` and `remarks.ts` find the reasons.
 */

import type { Answer, MeasureName } from '../sheet/measures.ts';
import type { Outcome } from './judge-condition.ts';
import type { Condition, Provenance, RuleSet } from './rule-set.ts';
import type { TechnicalExclusion } from './technical-exclusions.ts';
import type { Verdict } from './zones.ts';

export interface SetNamed {
  readonly id: string;
  readonly name: string;
  readonly jurisdiction: string;
  readonly force: RuleSet['force'];
  readonly kind: RuleSet['kind'];
  readonly edition: string;
  readonly outOfForce: RuleSet['outOfForce'];
  readonly source: string;
}

/** One rule, the measured value, and the outcome. */
export interface CheckedRule {
  readonly id: string;
  readonly outcome: Outcome;
  readonly applies: Verdict;
  /** Null for a technical exclusion, which belongs to no jurisdiction. */
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
  /** A few words of the text; null where it was not read. */
  readonly quote: string | null;
  readonly lookedOn: string | null;
  /** Paths of the sheet's answers that leave it open. */
  readonly open: readonly string[];
}

/** A reason to ask a person although no rule was judged. */
export interface Remark {
  readonly id:
    | 'no-rule-set'
    | 'not-covered'
    | 'perhaps-not-covered'
    | 'out-of-force'
    | 'not-yet-in-force'
    | 'from-memory'
    | 'no-repair-rule';
  readonly set: SetNamed | null;
  readonly words: string;
  readonly open: readonly string[];
}

export type Reason = CheckedRule | Remark;
export const isRule = (reason: Reason): reason is CheckedRule => 'outcome' in reason;

export const named = ({
  id,
  name,
  jurisdiction,
  force,
  kind,
  edition,
  outOfForce,
  source,
}: RuleSet): SetNamed => ({
  id,
  name,
  jurisdiction,
  force,
  kind,
  edition,
  outOfForce,
  source,
});
