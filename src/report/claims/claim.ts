/**
 * What a claim of a record is, and how its findings make its state. A finding supports the claim and
 * names its witness, or speaks against it, or says what the record lacks. A claim is shown where
 * nothing speaks against it and every witness that its row needs supports it. claim-table.ts holds
 * the rows, the files named after their subjects the grounds.
 */
import type { Saying } from '../../core/sayings.ts';
import { ENGLISH_CLAIMS, inEnglish, say } from '../language.ts';
import type { CuredPortion } from '../report-dose.ts';
import type { ClaimFacts } from './claim-facts.ts';
import { OBJECTIONS, type ObjectionId } from './objections.ts';

/** Best first. */
export const CLAIM_STATES = ['shown', 'not shown', 'not met'] as const;
export type ClaimState = (typeof CLAIM_STATES)[number];

/** What was seen, and by whom: a claim on a measured thing needs two that do not share a fault. */
export type Witness =
  | 'person'
  | 'light sensor'
  | 'lamp interruptions'
  | 'known output of the lamp'
  | 'glass sensor'
  | 'heat sink sensor'
  | 'pressure sensor'
  | 'pump'
  | 'known air'
  | 'board clock'
  | 'host clock'
  | 'shield switch'
  | 'proof test'
  | 'checksum'
  | 'program'
  | 'bottle file'
  | 'care record'
  | 'assessment'
  | 'gate before the job'
  | 'job and intake sheets';

export type Finding =
  | { readonly stand: 'for'; readonly by: Witness; readonly line: Saying }
  | { readonly stand: 'against'; readonly id: ObjectionId; readonly line: Saying }
  /** The record lacks it; said where the claim is not shown for want of it. */
  | { readonly stand: 'lacking'; readonly line: Saying };

/** The portion is null except for claims on each cured portion. */
export type Ground = (facts: ClaimFacts, portion: CuredPortion | null) => readonly Finding[];

export const supports = (by: Witness, line: Saying): Finding => ({ stand: 'for', by, line });
export const objects = (id: ObjectionId, line: Saying): Finding => ({ stand: 'against', id, line });
export const lacks = (line: Saying): Finding => ({ stand: 'lacking', line });

/** For evidence that older journals do not hold, and jobs that end early have not come to. */
export const notRecorded = (what: Saying, { end }: Pick<ClaimFacts, 'end'>): Finding =>
  lacks(say(end.reason === 'completed' ? 'lines.not-recorded' : 'lines.not-come-to', { what }));

/** For what the header states before a job begins: only an older version leaves it out. */
export const notInHeader = (what: Saying): Finding => lacks(say('lines.not-recorded', { what }));

export interface ClaimRow {
  readonly id: string;
  /**
   * `record` and `course`: whether there is a whole record of a whole job; `process`: what the unit
   * measured; `beside`: everything else that a good result rests on.
   */
  readonly kind: 'record' | 'course' | 'process' | 'beside';
  /** Every one of these must support it. */
  readonly needs: readonly Witness[];
  /** The objection that stands where one of them does not. */
  readonly unsupported: ObjectionId;
  /** One claim for each portion that was cured. */
  readonly eachPortion?: true;
  readonly grounds: readonly Ground[];
}

export interface Objection {
  readonly id: ObjectionId;
  /** In the words of the record, as its lines. */
  readonly headline: string;
  readonly lines: readonly string[];
  /** The lines as data, one for one. */
  readonly said: readonly Saying[];
}

export interface Support {
  readonly by: Witness;
  readonly line: string;
  readonly said: Saying;
}

/** A claim of one record. */
export interface Judged {
  /** Null for both portions at once, and for claims that are not on a portion. */
  readonly portion: CuredPortion | null;
  readonly state: ClaimState;
  readonly support: readonly Support[];
  /** Why it is not shown or not met; empty where it is shown. */
  readonly objections: readonly Objection[];
}

export function judgedBy(row: ClaimRow, facts: ClaimFacts, portion: CuredPortion | null): Judged {
  const findings = row.grounds.flatMap((ground) => ground(facts, portion));
  const support = supportIn(findings);
  const against = findings.flatMap((one) => (one.stand === 'against' ? [one] : []));
  const objections = [...new Set(against.map(({ id }) => id))].map((id) =>
    objection(
      id,
      against.filter((one) => one.id === id).map(({ line }) => line),
    ),
  );
  const missing = row.needs.filter((witness) => !support.some(({ by }) => by === witness));
  const lacking = findings.flatMap((one) => (one.stand === 'lacking' ? [one.line] : []));
  // Where something speaks against it, what is lacking besides adds nothing.
  const wanting =
    missing.length === 0 || objections.length > 0
      ? []
      : [objection(row.unsupported, [...lacking, noSupportBy(missing)])];
  const all = [...objections, ...wanting];
  return {
    portion,
    state: worstOf(all.map(({ id }) => OBJECTIONS[id].leaves)),
    support,
    objections: all,
  };
}

export const supportIn = (findings: readonly Finding[]): readonly Support[] =>
  findings.flatMap((one) =>
    one.stand === 'for' ? [{ by: one.by, line: inEnglish(one.line), said: one.line }] : [],
  );

const noSupportBy = (witnesses: readonly Witness[]): Saying =>
  say('lines.no-support', { witnesses: witnesses.map((one) => say(`witnesses.${one}`)) });

export const objection = (id: ObjectionId, said: readonly Saying[]): Objection => ({
  id,
  headline: ENGLISH_CLAIMS.objections[id],
  lines: said.map(inEnglish),
  said,
});

/** 'shown' for an empty list. */
export const worstOf = (states: readonly ClaimState[]): ClaimState =>
  CLAIM_STATES.findLast((state) => states.includes(state)) ?? 'shown';
