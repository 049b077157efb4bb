/**
 * The whole questionnaire in the order in which it is asked, and how answers become a sheet. An
 * unanswered question is "unknown" in the sheet, so that a half-filled sheet can be checked for
 * contradictions like a complete one.
 */

import { answerAt } from '../../core/fields.ts';
import { checkSettings } from '../../core/settings.ts';
import { type IntakeSheet, intakeSheetSchema } from './intake-sheet.ts';
import type { Question } from './question.ts';
import { DAMAGE_QUESTIONS } from './questions-damage.ts';
import { SITE_QUESTIONS } from './questions-place.ts';
import { VEHICLE_QUESTIONS } from './questions-vehicle.ts';

export const QUESTIONS: readonly Question[] = [
  ...VEHICLE_QUESTIONS,
  ...DAMAGE_QUESTIONS,
  ...SITE_QUESTIONS,
];

/** A person's answers by path; a question that is not in it was not asked yet. */
export type Answers = Readonly<Record<string, unknown>>;

const EMPTY = { schema: 'meniscus/intake@1' };

/** Placeholders where a sheet needs a value before anyone has given one. */
const BLANK: Answers = {
  reference: 'not yet given',
  lookedOn: '2000-01-01',
  ruleSets: [],
  notes: '',
};

/**
 * The sheet as far as it is answered. Questions that are not asked follow from earlier answers. An
 * explicit answer to such a question is kept, and asked again where it contradicts.
 */
export function sheetOf(answers: Answers): IntakeSheet {
  const start = QUESTIONS.reduce<unknown>(
    (sheet, { path }) => put(sheet, path, BLANK[path] ?? 'unknown'),
    EMPTY,
  );
  return QUESTIONS.reduce<unknown>((sheet, question) => {
    const stated = answers[question.path];
    const answer = stated === undefined ? question.skip?.(sheet as IntakeSheet)?.follows : stated;
    return answer === undefined ? sheet : put(sheet, question.path, answer);
  }, start) as IntakeSheet;
}

/** The same without placeholders for missing answers: this is what is saved half filled. */
export function draftOf(answers: Answers): unknown {
  return QUESTIONS.reduce<unknown>(
    (draft, { path }) => (answers[path] === undefined ? draft : put(draft, path, answers[path])),
    EMPTY,
  );
}

/** Fills a file's gaps as in an empty sheet; everything else in it stays to be checked. */
export function gapsFilled(raw: unknown): unknown {
  const known = [...QUESTIONS.map(({ path }) => path), 'schema'];
  const gaps = known.filter((path) => answerAt(raw, path) === undefined);
  const blank = sheetOf({});
  return gaps.reduce<unknown>((sheet, path) => put(sheet, path, answerAt(blank, path)), raw);
}

/** The questions that a file already answers. */
export function answersOf(raw: unknown): Answers {
  return Object.fromEntries(
    QUESTIONS.map(({ path }) => [path, answerAt(raw, path)] as const).filter(
      ([, answer]) => answer !== undefined,
    ),
  );
}

/** Questions to ask, given the answers so far. */
export function askedOf(answers: Answers): readonly Question[] {
  const sheet = sheetOf(answers);
  return QUESTIONS.filter(({ skip }) => (skip?.(sheet) ?? null) === null);
}

/** What is accepted instead of this answer, or null where the answer is accepted. */
export function refusalOf(path: string, answer: unknown): string | null {
  const checked = checkSettings(intakeSheetSchema, sheetWith(path, answer), '');
  if (checked.ok) return null;
  const found = checked.problems.find((problem) => problem.path.startsWith(path));
  return found === undefined ? null : found.accepted;
}

const sheetWith = (path: string, answer: unknown): unknown => put(sheetOf({}), path, answer);

function put(sheet: unknown, path: string, answer: unknown): Record<string, unknown> {
  const [key = '', ...rest] = path.split('.');
  const fields = (typeof sheet === 'object' ? sheet : null) as Readonly<
    Record<string, unknown>
  > | null;
  const value = rest.length === 0 ? answer : put(fields?.[key], rest.join('.'), answer);
  return { ...fields, [key]: value };
}
