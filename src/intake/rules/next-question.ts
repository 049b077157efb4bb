/**
 * Which question can still change the verdict. Once one rule forbids the repair, none can; once a
 * person must decide in any case, only those whose answer might forbid it. Each comes with the rule
 * that needs it, so that a person knows why it is asked. `sheet/` holds the questions.
 */
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { assess } from './assess.ts';
import { isRule, type Reason } from './reason.ts';
import type { RuleSet } from './rule-set.ts';

export interface Matter {
  /** Paths of open answers, the first of which is asked. */
  readonly paths: readonly string[];
  readonly why: string;
}

export interface Verdict {
  readonly answer: 'allowed' | 'not-allowed-here' | 'needs-a-person';
  readonly technical: 'can' | 'cannot' | 'needs-a-person';
  readonly matters: readonly Matter[];
}

export function verdictSoFar(sheet: IntakeSheet, ruleSets: readonly RuleSet[]): Verdict {
  const { answer, reasons, technical } = assess(sheet, ruleSets);
  const closed = answer === 'not-allowed-here' || technical.answer === 'cannot';
  return {
    answer,
    technical: technical.answer,
    matters: closed
      ? []
      : [...mattering(reasons, 'not-allowed'), ...mattering(technical.reasons, 'cannot')],
  };
}

function mattering(reasons: readonly Reason[], worst: string): readonly Matter[] {
  const settled = reasons.some((reason) => reason.open.length === 0);
  return reasons
    .filter((reason) => reason.open.length > 0)
    .filter((reason) => !settled || (isRule(reason) && reason.means === worst))
    .toSorted((a, b) => rank(a, worst) - rank(b, worst))
    .map(({ open, words, set }) => ({
      paths: open,
      why: set === null ? words : `${set.jurisdiction}: ${words}`,
    }));
}

/** What binds the vehicle first, then what may forbid. */
const rank = (reason: Reason, worst: string): number =>
  isRule(reason) ? (reason.means === worst ? 1 : 2) : 0;
