/**
 * Converts an assessment into plain facts and words for certificate, report and page. The intake
 * and report rooms do not know each other; this file connects them.
 */

import type { AssessmentFacts, AssessmentReason } from '../../document/facts.ts';
import type { Assessment } from '../../intake/rules/assess.ts';
import { isRule, type Reason } from '../../intake/rules/reason.ts';
import type { RuleSet } from '../../intake/rules/rule-set.ts';
import {
  answerText,
  editionText,
  knownFromText,
  limitText,
  measuredText,
} from '../../intake/rules/rule-words.ts';
import { MEASURES } from '../../intake/sheet/measures.ts';

export function assessmentFactsOf(
  { answer, reasons, technical }: Assessment,
  ruleSets: readonly RuleSet[],
): AssessmentFacts {
  return {
    answer,
    ruleSets: ruleSets.map((set) => ({ name: set.name, edition: editionText(set) })),
    reasons: reasons.map(reasonFact),
    technical: {
      answer: technical.answer,
      reasons: technical.reasons.map((rule) => `${rule.words} (${measuredText(rule)})`),
    },
  };
}

export function reasonFact(reason: Reason): AssessmentReason {
  const named = {
    words: reason.words,
    ruleSet: reason.set === null ? '' : `${reason.set.jurisdiction}: ${reason.set.name}`,
    edition: reason.set === null ? '' : editionText(reason.set),
  };
  if (!isRule(reason)) return { ...named, source: '', measured: openWords(reason.open), limit: '' };
  const { about, measured, zone, open } = reason;
  const value = `${MEASURES[about].words} ${answerText(about, measured)}`;
  return {
    ...named,
    source: knownFromText(reason),
    measured: [
      value,
      ...(zone === null ? [] : [`where: ${zone}`]),
      ...filled(openWords(open)),
    ].join('; '),
    limit: limitText(reason),
  };
}

const openWords = (open: readonly string[]): string =>
  open.length === 0 ? '' : `not known: ${open.join(', ')}`;

const filled = (text: string): readonly string[] => (text === '' ? [] : [text]);
