/**
 * The source of the intake sheet of `meniscus assess`: a file, a person at the terminal, or a file
 * whose gaps a person fills. It writes nothing; a half-filled sheet is returned as a draft.
 */
import { z } from 'zod';
import { readChecked } from '../../app/prepare/read-settings.ts';
import { type Checked, checkSettings } from '../../core/settings.ts';
import { loadBuiltInRuleSets } from '../../intake/rules/rule-sets.ts';
import { inchProblems } from '../../intake/sheet/inch-like.ts';
import { intakeSheetSchema } from '../../intake/sheet/intake-sheet.ts';
import { answersOf, askedOf, draftOf, gapsFilled, sheetOf } from '../../intake/sheet/questions.ts';
import { type Asked, askQuestions, type Terminal } from './ask.ts';

export type GotSheet =
  | { readonly kind: 'sheet'; readonly raw: unknown; readonly file: string }
  | { readonly kind: 'draft'; readonly draft: unknown }
  | { readonly kind: 'left'; readonly end: 'gone' | 'interrupted' };

/** `terminal` is null where no one is there to answer. */
export async function getSheet(
  file: string | null,
  terminal: Terminal | null,
  today: string,
): Promise<Checked<GotSheet>> {
  if (file === null) {
    return terminal === null ? nobodyThere() : ask(terminal, {}, today);
  }
  const read = readChecked(z.unknown(), file);
  if (!read.ok) return read;
  const { raw } = read.value;
  const answers = answersOf(raw);
  const gaps = askedOf(answers).filter(({ path }) => answers[path] === undefined);
  if (gaps.length === 0 || terminal === null) {
    return { ok: true, value: { kind: 'sheet', raw, file } };
  }
  const filled = gapsFilled(raw);
  const inches = inchProblems(raw, file);
  const checked = checkSettings(intakeSheetSchema, filled, file);
  const problems = [...inches, ...(checked.ok ? [] : checked.problems)];
  return problems.length > 0 ? { ok: false, problems } : ask(terminal, answers, today);
}

async function ask(
  terminal: Terminal,
  answers: Asked['answers'],
  today: string,
): Promise<Checked<GotSheet>> {
  const known = loadBuiltInRuleSets();
  if (!known.ok) return known;
  const ruleSets = known.value.map(({ id, jurisdiction, name, outOfForce }) => ({
    id,
    name: `${jurisdiction}: ${name}${outOfForce === null ? '' : ' (out of force)'}`,
  }));
  const asked = await askQuestions(terminal, answers, { today, ruleSets });
  return { ok: true, value: gotFrom(asked) };
}

function gotFrom({ end, answers }: Asked): GotSheet {
  switch (end) {
    case 'complete':
      return { kind: 'sheet', raw: sheetOf(answers), file: 'the answers' };
    case 'saved':
      return { kind: 'draft', draft: draftOf(answers) };
    case 'gone':
    case 'interrupted':
      return { kind: 'left', end };
  }
}

function nobodyThere(): Checked<never> {
  const value = 'missing, and there is no terminal to ask on';
  return {
    ok: false,
    problems: [{ file: '--intake', path: '', value, accepted: 'an intake sheet (JSON)' }],
  };
}
