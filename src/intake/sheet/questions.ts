/**
 * The whole questionnaire in the order in which it is asked, and how answers become a sheet. Where
 * nothing was answered yet the sheet says "unknown", so that one half filled in can be checked for
 * contradictions like a whole one.
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

/** What a person has answered, by path. What is not in it was not asked yet. */
export type Answers = Readonly<Record<string, unknown>>;

const EMPTY = { schema: 'meniscus/intake@1' };

/** Stand where a sheet must have something before anybody said it. */
const BLANK: Answers = {
  reference: 'not yet given',
  lookedOn: '2000-01-01',
  ruleSets: [],
  notes: '',
};

/**
 * The sheet as far as it is answered. What is not asked follows from what was; what somebody has
 * stated all the same stays, and is asked back where it contradicts.
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

/** The same with nothing in place of what was not answered: what is saved half filled in. */
export function draftOf(answers: Answers): unknown {
  return QUESTIONS.reduce<unknown>(
    (draft, { path }) => (answers[path] === undefined ? draft : put(draft, path, answers[path])),
    EMPTY,
  );
}

/** A file with gaps, its gaps filled as in an empty sheet; all else in it stays to be checked. */
export function gapsFilled(raw: unknown): unknown {
  const known = [...QUESTIONS.map(({ path }) => path), 'schema'];
  const gaps = known.filter((path) => answerAt(raw, path) === undefined);
  const blank = sheetOf({});
  return gaps.reduce<unknown>((sheet, path) => put(sheet, path, answerAt(blank, path)), raw);
}

/** What a file already answers. */
export function answersOf(raw: unknown): Answers {
  return Object.fromEntries(
    QUESTIONS.map(({ path }) => [path, answerAt(raw, path)] as const).filter(
      ([, answer]) => answer !== undefined,
    ),
  );
}

/** Questions that are asked at all, given the answers so far. */
export function askedOf(answers: Answers): readonly Question[] {
  const sheet = sheetOf(answers);
  return QUESTIONS.filter(({ skip }) => (skip?.(sheet) ?? null) === null);
}

/** What is accepted in place of this answer, or null where it is accepted. */
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
