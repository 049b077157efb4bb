/**
 * What is asked next in the short questionnaire: the ten questions, then one at a time those whose
 * answer could change the verdict, each with its reason, and last what the job sheet needs. The
 * verdict so far is handed in; `rules/` reaches it.
 */
import { briefQuestions, pathsOf, questionAt } from './brief-questions.ts';
import type { IntakeSheet } from './intake-sheet.ts';
import type { Question } from './question.ts';
import { type Answers, sheetOf } from './questions.ts';

export interface VerdictSoFar {
  readonly words: string;
  /** Nothing that is still open can make a repair of it. */
  readonly refused: boolean;
  /** Paths of answers that could change it, with the rule that needs them. */
  readonly matters: readonly { readonly paths: readonly string[]; readonly why: string }[];
}

export interface Next {
  readonly question: Question;
  /** Printed before the question. */
  readonly lines: readonly string[];
  /** "3/10" among the ten; null behind them. */
  readonly count: string | null;
}

const WORDS = {
  soFar: 'So far: ',
  why: 'Asked because: ',
  forTheJob: 'Asked for the job sheet.',
} as const;

const FOR_THE_JOB = [
  'damage.pitMm',
  'damage.legs',
  'damage.longestLegMm',
  'damage.diameterMm',
  'conditions.glassC',
  'conditions.airC',
];

export function nextBrief(
  answers: Answers,
  verdictOf: (sheet: IntakeSheet) => VerdictSoFar,
): Next | null {
  const sheet = sheetOf(answers);
  const first = briefQuestions(sheet);
  const at = first.findIndex((question) => isOpen(question, answers));
  const question = first[at];
  if (question !== undefined) return { question, lines: [], count: `${at + 1}/${first.length}` };
  const verdict = verdictOf(sheet);
  const soFar = `${WORDS.soFar}${verdict.words}`;
  for (const { paths, why } of verdict.matters) {
    const asked = firstOpen(paths, answers, sheet);
    if (asked !== null) {
      return { question: asked, lines: ['', soFar, `${WORDS.why}${why}`], count: null };
    }
  }
  if (verdict.refused || sheet.damage.type === 'surface-pit') return null;
  const asked = firstOpen(FOR_THE_JOB, answers, sheet);
  return asked && { question: asked, lines: ['', soFar, WORDS.forTheJob], count: null };
}

const isOpen = (question: Question, answers: Answers): boolean =>
  answers[question.path] === undefined &&
  pathsOf(question).some((path) => answers[path] === undefined);

function firstOpen(paths: readonly string[], answers: Answers, sheet: IntakeSheet) {
  const found = paths
    .map(questionAt)
    .find(
      (question) =>
        question !== undefined &&
        answers[question.path] === undefined &&
        (question.skip?.(sheet) ?? null) === null,
    );
  return found ?? null;
}
