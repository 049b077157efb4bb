/**
 * The assessment as a page to print and keep: the answer, whether a repair can succeed, the
 * drawing, each reason with measured value, limit, edition and source, every rule applied, and the
 * answers themselves. The document room renders it.
 */

import { answerAt } from '../../core/fields.ts';
import type { Block, Grade, PageDocument } from '../../document/blocks.ts';
import type { AssessmentReason } from '../../document/facts.ts';
import { type Assessment, WHO_DECIDES } from '../../intake/rules/assess.ts';
import type { CheckedRule } from '../../intake/rules/reason.ts';
import type { RuleSet } from '../../intake/rules/rule-set.ts';
import {
  knownFromText,
  measuredText,
  quotationText,
  setText,
} from '../../intake/rules/rule-words.ts';
import type { IntakeSheet } from '../../intake/sheet/intake-sheet.ts';
import { shownAnswer } from '../../intake/sheet/question-lines.ts';
import { QUESTIONS } from '../../intake/sheet/questions.ts';
import { assessmentFactsOf, reasonFact } from './assessment-facts.ts';

export interface Assessed {
  readonly sheet: IntakeSheet;
  readonly ruleSets: readonly RuleSet[];
  readonly assessment: Assessment;
  readonly drawingSvg: string;
}

export const ANSWER_LINES: Readonly<Record<Assessment['answer'], string>> = {
  allowed: 'Allowed by the chosen rules',
  'not-allowed-here': 'Not allowed here by the chosen rules',
  'needs-a-person': 'A person must decide',
};

export const TECHNICAL_LINES: Readonly<Record<Assessment['technical']['answer'], string>> = {
  can: 'Technically: no exclusion on the list applies.',
  cannot: 'Technically: a repair cannot be done well.',
  'needs-a-person': 'Technically: a person must look and decide.',
};

const GRADES: Readonly<Record<Assessment['answer'], Grade>> = {
  allowed: 'good',
  'not-allowed-here': 'bad',
  'needs-a-person': 'caution',
};

const OUTCOMES: Readonly<Record<CheckedRule['outcome'], string>> = {
  holds: 'holds',
  broken: 'broken',
  unknown: 'not known',
  'does-not-apply': 'does not apply',
};

export function assessmentPage(assessed: Assessed, today: string): PageDocument {
  const { sheet, ruleSets, assessment, drawingSvg } = assessed;
  const facts = assessmentFactsOf(assessment, ruleSets);
  const { technical } = assessment;
  return {
    title: `Assessment ${sheet.reference}: ${ANSWER_LINES[assessment.answer]}`,
    language: 'en',
    fit: 'flow',
    foot: `Assessment ${sheet.reference}, ${today}. ${WHO_DECIDES}`,
    blocks: [
      { kind: 'heading', level: 1, text: `Assessment of damage, ${sheet.reference}` },
      {
        kind: 'notice',
        grade: GRADES[assessment.answer],
        title: ANSWER_LINES[assessment.answer],
        lines: [TECHNICAL_LINES[technical.answer]],
        notes: [assessment.disclaimer],
      },
      { kind: 'paragraph', text: `Inspected on ${sheet.lookedOn}, assessed on ${today}.` },
      { kind: 'paragraph', text: `Rules: ${ruleSetNames(ruleSets)}.` },
      figure(drawingSvg),
      { kind: 'heading', level: 2, text: 'Why this answer' },
      reasonsTable(facts.reasons, 'No chosen rule objects.'),
      { kind: 'heading', level: 2, text: 'Whether a repair can succeed' },
      reasonsTable(technical.reasons.map(reasonFact), 'No exclusion on the list applies.'),
      { kind: 'heading', level: 2, text: 'Every rule applied to the answers' },
      checkedTable([...assessment.checked, ...technical.checked]),
      { kind: 'heading', level: 2, text: 'The answers' },
      answersFields(sheet),
      { kind: 'paragraph', look: 'note', text: assessment.disclaimer },
    ],
  };
}

const ruleSetNames = (ruleSets: readonly RuleSet[]): string =>
  ruleSets.map(setText).join('; ') || 'none was chosen';

const figure = (svg: string): Block => ({
  kind: 'figure',
  id: 'pane',
  svg,
  title: 'The pane and the damage',
  description: 'Pane seen from the driver’s seat, with the damage, zones and distances.',
});

const reasonsTable = (reasons: readonly AssessmentReason[], empty: string): Block => ({
  kind: 'table',
  wide: true,
  heads: ['Rule', 'Rule set and edition', 'Measured', 'Accepted', 'Where the figure comes from'],
  empty,
  rows: reasons.map(({ words, ruleSet, edition, measured, limit, source }) => [
    words,
    [ruleSet, edition].filter((part) => part !== '').join(', '),
    measured,
    limit,
    source,
  ]),
});

const checkedTable = (rules: readonly CheckedRule[]): Block => ({
  kind: 'table',
  wide: true,
  heads: ['Outcome', 'Rule set', 'Rule', 'Measured and accepted', 'Where the figure comes from'],
  empty: 'No rule was applied.',
  rows: rules.map((rule) => [
    OUTCOMES[rule.outcome],
    rule.set?.jurisdiction ?? 'technical',
    rule.words,
    measuredText(rule),
    [knownFromText(rule), ...(rule.quote === null ? [] : [quotationText(rule)])].join('; '),
  ]),
});

const answersFields = (sheet: IntakeSheet): Block => ({
  kind: 'fields',
  empty: '',
  labelShare: 0.62,
  rows: QUESTIONS.map((question): readonly [string, string] => [
    question.ask,
    shownAnswer(question, answerAt(sheet, question.path)),
  ]),
});
