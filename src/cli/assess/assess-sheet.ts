/**
 * The source of the intake sheet of `meniscus assess`: a file, a person at the terminal, or a file
 * whose gaps a person fills. It writes nothing; a half-filled sheet is returned as a draft.
 */
import { z } from 'zod';
import { namedOnCommandLine, ruleSetsOf } from '../../app/prepare/assessment-of.ts';
import { ANSWER_LINES, TECHNICAL_LINES } from '../../app/prepare/assessment-page.ts';
import { readChecked } from '../../app/prepare/read-settings.ts';
import { type Checked, checkSettings } from '../../core/settings.ts';
import { verdictSoFar } from '../../intake/rules/next-question.ts';
import { KNOWN_PLACES, proposedFor } from '../../intake/rules/places.ts';
import type { RuleSet } from '../../intake/rules/rule-set.ts';
import { loadBuiltInRuleSets } from '../../intake/rules/rule-sets.ts';
import type { AnswerContext } from '../../intake/sheet/answer-text.ts';
import { nextBrief, type VerdictSoFar } from '../../intake/sheet/brief.ts';
import type { PEOPLE_PATHS } from '../../intake/sheet/brief-questions.ts';
import { inchProblems } from '../../intake/sheet/inch-like.ts';
import { type IntakeSheet, intakeSheetSchema } from '../../intake/sheet/intake-sheet.ts';
import { answersOf, askedOf, draftOf, gapsFilled, sheetOf } from '../../intake/sheet/questions.ts';
import { type Asked, askQuestions, type Terminal } from './ask.ts';

export type GotSheet =
  | {
      readonly kind: 'sheet';
      readonly raw: unknown;
      readonly file: string;
      readonly people: People;
    }
  | { readonly kind: 'draft'; readonly draft: unknown }
  | { readonly kind: 'left'; readonly end: 'gone' | 'interrupted' };

/** Said at the terminal for the job sheet; the intake sheet names nobody. */
export interface People {
  readonly vehicle?: string;
  readonly customer?: string;
}

export interface Wanted {
  readonly file: string | null;
  readonly today: string;
  /** Named beside the sheet, by id or file. */
  readonly rules: readonly string[];
  /** Already given as options, so that nobody is asked for them. */
  readonly people: People;
  readonly allQuestions: boolean;
}

/** `terminal` is null where no one is there to answer. */
export async function getSheet(
  wanted: Wanted,
  terminal: Terminal | null,
): Promise<Checked<GotSheet>> {
  const { file } = wanted;
  if (file === null) {
    return terminal === null ? nobodyThere() : ask(terminal, {}, wanted);
  }
  const read = readChecked(z.unknown(), file);
  if (!read.ok) return read;
  const { raw } = read.value;
  const answers = answersOf(raw);
  const gaps = askedOf(answers).filter(({ path }) => answers[path] === undefined);
  if (gaps.length === 0 || terminal === null) {
    return { ok: true, value: { kind: 'sheet', raw, file, people: {} } };
  }
  const filled = gapsFilled(raw);
  const inches = inchProblems(raw, file);
  const checked = checkSettings(intakeSheetSchema, filled, file);
  const problems = [...inches, ...(checked.ok ? [] : checked.problems)];
  return problems.length > 0 ? { ok: false, problems } : ask(terminal, answers, wanted);
}

async function ask(
  terminal: Terminal,
  given: Asked['answers'],
  wanted: Wanted,
): Promise<Checked<GotSheet>> {
  const { today, rules } = wanted;
  const known = loadBuiltInRuleSets();
  if (!known.ok) return known;
  const beside = ruleSetsOf(namedOnCommandLine(rules));
  if (!beside.ok) return beside;
  const ruleSets = known.value.map(({ id, jurisdiction, name, outOfForce }) => ({
    id,
    name: `${jurisdiction}: ${name}${outOfForce === null ? '' : ' (out of force)'}`,
  }));
  const whole = { today, ruleSets, placeOf: proposedFor };
  const chosen = ({ ruleSets: ids }: IntakeSheet) => [
    ...known.value.filter(({ id }) => ids.includes(id)),
    ...beside.value,
  ];
  const context: AnswerContext = wanted.allQuestions
    ? whole
    : {
        ...whole,
        places: KNOWN_PLACES,
        next: (answers) => nextBrief(answers, (sheet) => verdictText(sheet, chosen(sheet))),
      };
  const start = wanted.allQuestions ? given : { ...startOf(wanted), ...given };
  return { ok: true, value: gotFrom(await askQuestions(terminal, start, context)) };
}

/** What options said already, and today for the day of the inspection. */
const startOf = ({ today, people, rules }: Wanted): Asked['answers'] => ({
  lookedOn: today,
  ...(people.vehicle === undefined ? {} : { 'people.vehicle': people.vehicle }),
  ...(people.customer === undefined ? {} : { 'people.customer': people.customer }),
  ...(rules.length === 0 ? {} : { ruleSets: [] }),
});

const stillOpen = (count: number): string =>
  count === 1 ? '1 answer can still change it.' : `${count} answers can still change it.`;

function verdictText(sheet: IntakeSheet, ruleSets: readonly RuleSet[]): VerdictSoFar {
  const { answer, technical, matters } = verdictSoFar(sheet, ruleSets);
  const open = new Set(matters.flatMap(({ paths }) => paths)).size;
  const more = open === 0 ? '' : ` ${stillOpen(open)}`;
  return {
    words: `${ANSWER_LINES[answer]}. ${TECHNICAL_LINES[technical]}${more}`,
    refused: answer === 'not-allowed-here' || technical === 'cannot',
    matters,
  };
}

function gotFrom({ end, answers }: Asked): GotSheet {
  switch (end) {
    case 'complete': {
      const people = peopleOf(answers);
      return { kind: 'sheet', raw: sheetOf(answers), file: 'the answers', people };
    }
    case 'saved':
      return { kind: 'draft', draft: draftOf(answers) };
    case 'gone':
    case 'interrupted':
      return { kind: 'left', end };
  }
}

function peopleOf(answers: Asked['answers']): People {
  const said = (path: (typeof PEOPLE_PATHS)[number]) => {
    const answer = answers[path];
    return typeof answer === 'string' && answer !== '' ? answer : undefined;
  };
  const vehicle = said('people.vehicle');
  const customer = said('people.customer');
  return { ...(vehicle && { vehicle }), ...(customer && { customer }) };
}

function nobodyThere(): Checked<never> {
  const value = 'missing, and there is no terminal to ask on';
  return {
    ok: false,
    problems: [{ file: '--intake', path: '', value, accepted: 'an intake sheet (JSON)' }],
  };
}
