/**
 * `meniscus assess`: may this damage be repaired here, and can it? It works from an intake sheet or
 * from questions at the terminal, prints the answer, and writes it with the drawing. `src/intake/`
 * decides what is allowed. Any answer ends with code 0.
 */
import type { Command } from 'commander';
import { ANSWER_LINES, type Assessed } from '../../app/prepare/assessment-page.ts';
import { type Checked, problemLine, type SettingsProblem } from '../../core/settings.ts';
import { ENGLISH_DRAWING } from '../../intake/drawing/drawing-words.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { localDay } from '../terminal/local-day.ts';
import { collect } from '../terminal/parse-option.ts';
import { print, printError } from '../terminal/print.ts';
import type { AdviceAsked, JobFiles } from './assess-advice.ts';

interface Options extends AdviceAsked {
  readonly intake?: string;
  readonly rules: readonly string[];
  readonly out?: string;
  readonly json: boolean;
  /** Of the vehicle's use: its rule sets are proposed. */
  readonly place?: string;
  readonly allQuestions: boolean;
  /** Sheets of other damages on the same pane. */
  readonly beside: readonly string[];
  readonly besideRepaired: readonly string[];
  readonly listRules: boolean;
  readonly rulesTable: boolean;
}

export function addAssessCommand(program: Command): void {
  program
    .command('assess')
    .description('say whether a damage may be repaired here, and whether it can be')
    .option('--intake <file>', 'intake sheet (JSON); missing answers are asked at the terminal')
    .option('--rules <id or file>', 'a rule set in addition to those of the sheet', collect, [])
    .option('--place <code>', 'where the vehicle is used (de, gb, us-md): its rule sets are taken')
    .option('--all-questions', 'ask every question, not only those that matter', false)
    .option('--resin <file>', 'bottle of resin at hand (JSON); repeatable', collect, [])
    .option(
      '--beside <file>',
      'sheet of another damage on the same pane (JSON); repeatable',
      collect,
      [],
    )
    .option('--beside-repaired <file>', 'the same, of one that is repaired', collect, [])
    .option('--unit <file>', 'settings of the unit (JSON)')
    .option('--advice-rules <file>', "a shop's own rules for advice (JSON)")
    .option('--technician <name>', 'for the job sheet')
    .option('--vehicle <plate>', 'for the job sheet and the display')
    .option('--customer <name>', 'for the job sheet and the certificate')
    .option('--out <folder>', 'folder for sheet, assessment, drawing, page, profile and job sheet')
    .option('--json', 'print the assessment as JSON', false)
    .option('--list-rules', 'list the rule sets that come with the unit', false)
    .option('--rules-table', 'print every limit with its source, as Markdown', false)
    .addHelpText('after', '\nExample: meniscus assess --intake intake.json --out assessment\n')
    .action(async (options: Options) => {
      process.exitCode = await assessCommand(options);
    });
}

async function assessCommand(given: Options): Promise<number> {
  if (given.listRules || given.rulesTable) return printRules(given);
  const placed = await withPlace(given);
  if (!placed.ok) return refuseProblems(placed.problems);
  const options = placed.value;
  const { inTheWay, freeFolder, writeDraft } = await import('./assess-files.ts');
  const { getSheet } = await import('./assess-sheet.ts');
  const { namedOnCommandLine, ruleSetsOf } = await import('../../app/prepare/assessment-of.ts');
  // Checked before anything is asked: no one should answer questions for nothing.
  const named = ruleSetsOf(namedOnCommandLine(options.rules));
  const taken = options.out === undefined ? [] : inTheWay(options.out);
  const early = [...taken, ...(named.ok ? [] : named.problems)];
  if (early.length > 0) return refuseProblems(early);
  const today = localDay(new Date());
  const { stdin, stdout, stderr } = process;
  // JSON alone goes to standard output, so questions go to standard error.
  const terminal = stdin.isTTY ? { input: stdin, output: options.json ? stderr : stdout } : null;
  const { vehicle, customer, rules, allQuestions } = options;
  const people = { ...(vehicle && { vehicle }), ...(customer && { customer }) };
  const wanted = { file: options.intake ?? null, today, rules, people, allQuestions };
  const got = await getSheet(wanted, terminal);
  if (!got.ok) return refuseProblems(got.problems);
  switch (got.value.kind) {
    case 'left':
      printError('Stopped. Nothing was written.\n');
      return got.value.end === 'interrupted' ? EXIT.interrupted : EXIT['stopped-by-person'];
    case 'draft': {
      const folder = options.out ?? freeFolder('unfinished');
      const path = writeDraft(got.value.draft, options.intake ?? null, folder);
      printError(`Saved: ${path}. Continue with: meniscus assess --intake ${path}\n`);
      return EXIT['stopped-by-person'];
    }
    case 'sheet':
      return conclude(got.value.raw, got.value.file, { ...options, ...got.value.people }, today);
  }
}

/** The rule sets of the place beside those that were named; a place without any is said to be one. */
async function withPlace(options: Options): Promise<Checked<Options>> {
  if (options.place === undefined) return { ok: true, value: options };
  const { PLACE_CODE, proposedFor } = await import('../../intake/rules/places.ts');
  const proposed = proposedFor(options.place);
  if (proposed === null) {
    const value = JSON.stringify(options.place);
    const problem = { file: '--place', path: '', value, accepted: PLACE_CODE };
    return { ok: false, problems: [problem] };
  }
  // JSON alone goes to standard output.
  printError(`Rules of the place: ${proposed.words}\n`);
  const rules = [...new Set([...options.rules, ...proposed.sets])];
  return { ok: true, value: { ...options, rules } };
}

async function conclude(
  given: unknown,
  file: string,
  options: Options,
  today: string,
): Promise<number> {
  const { assessmentOf, sheetBeside, withRuleSets } = await import(
    '../../app/prepare/assessment-of.ts'
  );
  const beside = [
    ...options.beside.map((one) => ({ file: one, repaired: false })),
    ...options.besideRepaired.map((one) => ({ file: one, repaired: true })),
  ];
  const placed: Checked<unknown> =
    beside.length === 0 ? { ok: true, value: given } : sheetBeside(given, file, beside, today);
  if (!placed.ok) return refuseProblems(placed.problems);
  const raw = placed.value;
  const made = assessmentOf(raw, options.rules, file, today, ENGLISH_DRAWING);
  if (!made.ok) return refuseProblems(made.problems);
  const { assessAdvice } = await import('./assess-advice.ts');
  const job = assessAdvice(made.value, options, today);
  if (!job.ok) return refuseProblems(job.problems);
  let paths: readonly string[] = [];
  try {
    const kept = withRuleSets(raw, options.rules);
    paths = await written(kept, made.value, job.value, file === options.intake, options, today);
  } catch (error) {
    printError(`assess: ${String(error)}; the answers:\n${JSON.stringify(raw)}\n`);
    return EXIT.fault;
  }
  print(`${await printedAnswer(made.value, job.value, paths, options.json)}\n`);
  return EXIT.completed;
}

async function printedAnswer(
  assessed: Assessed,
  job: JobFiles | null,
  paths: readonly string[],
  json: boolean,
): Promise<string> {
  if (json) {
    const advice = job?.advice ?? null;
    return JSON.stringify({ ...assessed.assessment, advice, files: paths }, null, 2);
  }
  const { assessLines } = await import('./assess-lines.ts');
  const { adviceLines } = await import('./advice-lines.ts');
  const notes = paths.length === 0 ? [] : (job?.notes ?? []);
  return [
    ...assessLines(assessed),
    ...(job === null ? [] : ['', ...adviceLines(job.advice)]),
    ...paths.map((path) => `Written: ${path}`),
    ...notes,
    // Once more at the end, where a terminal still shows it.
    `Verdict: ${ANSWER_LINES[assessed.assessment.answer]}.`,
  ].join('\n');
}

/** Answers that a person gave are always saved; those of a file exist already. */
async function written(
  raw: unknown,
  assessed: Assessed,
  job: JobFiles | null,
  fromFile: boolean,
  { out }: Options,
  today: string,
): Promise<readonly string[]> {
  if (out === undefined && fromFile) return [];
  const { freeFolder, writeAssessment, writeJobFiles } = await import('./assess-files.ts');
  const folder = out ?? freeFolder(assessed.sheet.reference);
  return [
    ...writeAssessment(folder, raw, assessed, today),
    ...writeJobFiles(folder, job?.files ?? {}),
  ];
}

async function printRules({ json, listRules }: Options): Promise<number> {
  const { loadBuiltInRuleSets } = await import('../../intake/rules/rule-sets.ts');
  const sets = loadBuiltInRuleSets();
  if (!sets.ok) return refuseProblems(sets.problems);
  if (listRules) {
    const { ruleSetLines } = await import('./assess-lines.ts');
    const text = json ? JSON.stringify(sets.value, null, 2) : ruleSetLines(sets.value).join('\n');
    print(`${text}\n`);
    return EXIT.completed;
  }
  const { rulesTable } = await import('../../intake/rules/rules-table.ts');
  print(rulesTable(sets.value));
  return EXIT.completed;
}

function refuseProblems(problems: readonly SettingsProblem[]): number {
  printError(`${problems.map(problemLine).join('\n')}\nNothing was assessed.\n`);
  return EXIT.badInput;
}
