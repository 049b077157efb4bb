/**
 * The terminal's lines for a question, its help, its answer and a contradiction. Words only; the
 * conversation decides what is asked when.
 */

import { answerAt } from '../../core/fields.ts';
import type { AnswerContext } from './answer-text.ts';
import type { Conflict } from './intake-conflicts.ts';
import { mayBeUnknown, type Question } from './question.ts';
import { type Answers, askedOf, QUESTIONS, sheetOf } from './questions.ts';

export const HOW_TO_ANSWER =
  'u: don’t know.  ?: help.  <: one question back.  save: keep the answers and continue later.';

interface Asked {
  readonly answers: Answers;
}

export function askingLines(
  question: Question,
  { answers }: Asked,
  context: AnswerContext,
  count: string | null = countOf(question, answers),
): readonly string[] {
  const before = answers[question.path];
  const kept =
    before === undefined ? [] : [`  Now: ${shownAnswer(question, before)}; Enter keeps it.`];
  const ask = count === null ? question.ask : `${count}  ${question.ask}`;
  return ['', ask, ...optionLines(question, context), ...kept];
}

/** "3/43" in the whole questionnaire. */
function countOf(question: Question, answers: Answers): string | null {
  const asked = askedOf(answers);
  const at = asked.findIndex(({ path }) => path === question.path);
  return at < 0 ? null : `${at + 1}/${asked.length}`;
}

/** What may be typed, on one line or one for each choice. */
function optionLines(question: Question, context: AnswerContext): readonly string[] {
  const { answer } = question;
  const numbered = (words: readonly string[]) => words.map((word, i) => `  ${i + 1}  ${word}`);
  switch (answer.kind) {
    case 'choice':
      return numbered(answer.options.map(({ words }) => words));
    case 'rule-sets':
      return context.places === undefined
        ? [...numbered(context.ruleSets.map(({ name }) => name)), '  or none']
        : [
            `  the place: ${context.places.join(' ')}`,
            '  or rule sets by their ids (--list-rules), or none',
          ];
    case 'yes-no':
      return ['  y, n or u'];
    case 'number':
      return [`  in ${answer.unit}${answer.none === undefined ? '' : `, or ${answer.none}`}`];
    case 'sides':
      return ['  in mm: left right top bottom'];
    case 'distances':
      return [`  in mm: ${answer.names.join(' ')}`];
    case 'date':
      return [`  YYYY-MM-DD; Enter for today, ${context.today}`];
    case 'text':
      return answer.mayBeEmpty ? ['  Enter for nothing'] : [];
  }
}

export function helpLines(question: Question, context: AnswerContext): readonly string[] {
  const unknown = mayBeUnknown(question) ? ['  u when you don’t know.'] : [];
  return [`  ${question.help}`, ...optionLines(question, context), ...unknown];
}

export function contradictionLines({ paths, why }: Conflict, answers: Answers): readonly string[] {
  const sheet = sheetOf(answers);
  const questions = paths.map((path) => QUESTIONS.find((question) => question.path === path));
  const lines = questions.flatMap((question, i) =>
    question === undefined
      ? []
      : [`  ${i + 1}  ${question.ask}  ${shownAnswer(question, answerAt(sheet, question.path))}`],
  );
  return lines.length === 1
    ? ['', `This cannot be: ${why}.`, ...lines]
    : ['', `These two cannot both be true: ${why}.`, ...lines, '  Which is wrong, 1 or 2?'];
}

export function shownAnswer({ answer: kind }: Question, answer: unknown): string {
  if (answer === 'unknown') return 'not known';
  if (typeof answer === 'boolean') return answer ? 'yes' : 'no';
  if (kind.kind === 'distances') return `${(answer as readonly number[]).join(' ')} mm`;
  if (Array.isArray(answer)) return answer.length === 0 ? 'none' : answer.join(', ');
  if (kind.kind === 'choice') {
    return kind.options.find(({ value }) => value === answer)?.words ?? String(answer);
  }
  if (kind.kind === 'number')
    return answer === null ? (kind.none ?? 'none') : `${answer} ${kind.unit}`;
  if (kind.kind === 'sides') return `${Object.values(answer as object).join(' ')} mm`;
  return answer === '' ? 'nothing' : String(answer);
}
