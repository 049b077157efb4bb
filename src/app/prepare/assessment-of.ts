/**
 * From an intake sheet as read and names of rule sets to an assessment with its drawing, or to
 * every problem found: values that look like inches, values out of range, contradicting answers,
 * unknown rule sets. `src/intake/` decides what is allowed.
 */

import { type Checked, checkSettings, type SettingsProblem } from '../../core/settings.ts';
import type { DrawingWords } from '../../intake/drawing/drawing-words.ts';
import { paneDrawing } from '../../intake/drawing/pane-drawing.tsx';
import { assess } from '../../intake/rules/assess.ts';
import { type RuleSet, ruleSetSchema } from '../../intake/rules/rule-set.ts';
import { loadBuiltInRuleSets } from '../../intake/rules/rule-sets.ts';
import { inchProblems } from '../../intake/sheet/inch-like.ts';
import { conflictProblems } from '../../intake/sheet/intake-conflicts.ts';
import { type IntakeSheet, intakeSheetSchema } from '../../intake/sheet/intake-sheet.ts';
import { othersOfPane, sharedWith, spacedFrom } from '../../intake/sheet/same-pane.ts';
import type { Assessed } from './assessment-page.ts';
import { readChecked, readJson } from './read-settings.ts';

/**
 * `refs` are ids of built-in rule sets or paths of files; they apply together with those in the
 * sheet. `today` as YYYY-MM-DD.
 */
export function assessmentOf(
  sheetRaw: unknown,
  refs: readonly string[],
  file: string,
  today: string,
  words: DrawingWords,
): Checked<Assessed> {
  const sheet = checkedSheet(sheetRaw, file, today);
  if (!sheet.ok) return sheet;
  const ruleSets = ruleSetsOf([
    ...sheet.value.ruleSets.map((ref, at) => ({ ref, file, path: `ruleSets.${at}` })),
    ...namedOnCommandLine(refs),
  ]);
  if (!ruleSets.ok) return ruleSets;
  return {
    ok: true,
    value: {
      sheet: sheet.value,
      ruleSets: ruleSets.value,
      assessment: assess(sheet.value, ruleSets.value),
      drawingSvg: paneDrawing(sheet.value, ruleSets.value, words),
    },
  };
}

/** The sheet of a further damage on a pane, with what it shares and its distances filled in. */
export function sheetBeside(
  raw: unknown,
  file: string,
  beside: readonly { readonly file: string; readonly repaired: boolean }[],
  today: string,
): Checked<unknown> {
  const read = beside.map((one) => {
    const given = readJson(one.file);
    const sheet = given.ok ? checkedSheet(given.value, one.file, today) : given;
    return { ...one, sheet };
  });
  const problems = read.flatMap(({ sheet }) => (sheet.ok ? [] : sheet.problems));
  if (problems.length > 0) return { ok: false, problems };
  const neighbours = read.flatMap(({ sheet, ...one }) =>
    sheet.ok ? [{ ...one, sheet: sheet.value }] : [],
  );
  const shared = sharedWith(raw, file, neighbours);
  if (!shared.ok) return shared;
  const sheet = checkedSheet(shared.value, file, today);
  if (!sheet.ok) return sheet;
  const place = spacedFrom(sheet.value, file, neighbours);
  return place.ok
    ? {
        ok: true,
        value: {
          ...(shared.value as object),
          place: place.value,
          samePane: othersOfPane(sheet.value, neighbours),
        },
      }
    : place;
}

function checkedSheet(raw: unknown, file: string, today: string): Checked<IntakeSheet> {
  const inches = inchProblems(raw, file);
  const checked = checkSettings(intakeSheetSchema, withSections(raw), file);
  const others = checked.ok
    ? []
    : checked.problems.filter(({ path }) => !inches.some((inch) => inch.path === path));
  const problems = [...inches, ...others];
  if (problems.length > 0 || !checked.ok) return { ok: false, problems };
  const conflicts = conflictProblems(checked.value, today, file);
  return conflicts.length > 0 ? { ok: false, problems: conflicts } : checked;
}

/** Fills in missing sections, so that each missing answer is reported by its own path. */
const withSections = (raw: unknown): unknown =>
  typeof raw === 'object' && raw !== null && !Array.isArray(raw)
    ? { vehicle: {}, pane: {}, damage: {}, place: {}, ...raw }
    : raw;

export const namedOnCommandLine = (refs: readonly string[]): readonly RuleSetRef[] =>
  refs.map((ref) => ({ ref, file: '--rules', path: '' }));

/** The sheet as assessed, so that the job is later checked against the same rules. */
export function withRuleSets(raw: unknown, refs: readonly string[]): unknown {
  if (refs.length === 0) return raw;
  const sheet = raw as Pick<IntakeSheet, 'ruleSets'>;
  return { ...sheet, ruleSets: [...new Set([...sheet.ruleSets, ...refs])] };
}

export interface RuleSetRef {
  readonly ref: string;
  /** Where the reference was given, for the message. */
  readonly file: string;
  readonly path: string;
}

export function ruleSetsOf(refs: readonly RuleSetRef[]): Checked<readonly RuleSet[]> {
  const builtIn = loadBuiltInRuleSets();
  if (!builtIn.ok) return builtIn;
  const found = refs.map((named) => ruleSetOf(named, builtIn.value));
  const problems = found.flatMap((one) => (one.ok ? [] : one.problems));
  if (problems.length > 0) return { ok: false, problems };
  const sets = found.flatMap((one) => (one.ok ? [one.value] : []));
  // A set named both in the sheet and on the command line counts once.
  return { ok: true, value: sets.filter((set, at) => sets.indexOf(set) === at) };
}

function ruleSetOf({ ref, file, path }: RuleSetRef, builtIn: readonly RuleSet[]): Checked<RuleSet> {
  const known = builtIn.find(({ id }) => id === ref);
  if (known !== undefined) return { ok: true, value: known };
  if (ref.endsWith('.json')) {
    const read = readChecked(ruleSetSchema, ref);
    return read.ok ? { ok: true, value: read.value.settings } : read;
  }
  const ids = builtIn.map(({ id }) => id).join(', ');
  const problem: SettingsProblem = {
    file,
    path,
    value: JSON.stringify(ref),
    accepted: `a .json file, or one of ${ids}`,
  };
  return { ok: false, problems: [problem] };
}
