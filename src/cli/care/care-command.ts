/**
 * `meniscus care`: the state of the unit's care on one screen, `care log` for a piece of service,
 * `care history` for everything on record. It exits with 2 where something blocks repairs.
 */
import { type Command, InvalidArgumentError } from 'commander';
import { SERVICES, type Service } from '../../care/care-entry.ts';
import { happened } from '../../care/care-records.ts';
import { type CareState, careStateOf } from '../../care/care-state.ts';
import { problemLine } from '../../core/settings.ts';
import { coverageFactor } from '../../signal/student-t.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { tellIndexMissing } from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';
import { refuse } from '../terminal/refuse.ts';
import { historyLines } from './care-history.ts';
import { type CareLogOptions, careLog } from './care-log.ts';
import {
  type CareOptions,
  type LoadedCare,
  loadCare,
  parseDay,
  withCareOptions,
} from './care-options.ts';
import { careScreen } from './care-screen.ts';

type ShowOptions = CareOptions & { readonly json: boolean };

const EXAMPLES = `
Examples: meniscus care
          meniscus care log lamp-window --by "A. Person"
`;

export function addCareCommand(program: Command): Command {
  // No options of its own: they would capture those of the subcommands.
  const care = program
    .command('care')
    .description("the unit's care: what is due, trends, usage")
    .addHelpText('after', EXAMPLES);
  addState(care);
  addLog(care);
  addHistory(care);
  return care;
}

function addState(care: Command): void {
  withCareOptions(care.command('state', { isDefault: true }))
    .description('everything on one screen; exits with 2 where something blocks repairs')
    .option('--json', 'as JSON, in SI units', false)
    .addHelpText('after', EXAMPLES)
    .action((options: ShowOptions) => {
      process.exitCode = showCare(options);
    });
}

function addLog(care: Command): void {
  withCareOptions(care.command('log'))
    .option('--json', 'as JSON, in SI units', false)
    .description('record a piece of service')
    .argument('<service>', SERVICES.join(', '), parseService)
    .requiredOption('--by <name>', 'who did it', parseLine(80))
    .option('--note <text>', 'further remarks, without names', parseLine(300), '')
    .option('--on <date>', 'when it was done, if not today (YYYY-MM-DD)', parseDay)
    .option('--count <films>', 'films on a new roll', parseFilms)
    .addHelpText('after', '\nExample: meniscus care log o-ring --by "A. Person" --on 1999-12-31\n')
    .action(async (service: Service, options: CareLogOptions) => {
      process.exitCode = await careLog(service, options);
    });
}

function addHistory(care: Command): void {
  withCareOptions(care.command('history'))
    .description('every piece of care on record, oldest first')
    .option('--json', 'as JSON, in SI units', false)
    .addHelpText('after', '\nExample: meniscus care history\n')
    .action((options: ShowOptions) => {
      process.exitCode = showHistory(options);
    });
}

function showCare(options: ShowOptions): number {
  const loaded = loadCare(options);
  if (!loaded.ok) return refuse(loaded.problems.map(problemLine));
  tellIndexMissing();
  const { notes, unit, simulated } = loaded.value;
  const state = stateOf(loaded.value);
  const shown = { unit, simulated, state, notes };
  write(options.json ? json({ unit, simulated, ...state, notes }) : careScreen(shown));
  return state.worst === 'blocked' ? EXIT.badInput : EXIT.completed;
}

function stateOf({ facts, care }: LoadedCare): CareState {
  const { confidence } = care.forecast;
  return careStateOf(facts, care, (degrees) => coverageFactor(confidence, degrees, 'two-sided'));
}

function showHistory(options: ShowOptions): number {
  const loaded = loadCare(options);
  if (!loaded.ok) return refuse(loaded.problems.map(problemLine));
  tellIndexMissing();
  const { facts, notes } = loaded.value;
  const { care, today } = facts;
  write(options.json ? json(happened(care, today)) : [...historyLines(care, today), ...notes]);
  return EXIT.completed;
}

const json = (value: unknown): readonly string[] => [JSON.stringify(value, null, 2)];
const write = (lines: readonly string[]): void => print(`${lines.join('\n')}\n`);

function parseService(words: string): Service {
  const service = SERVICES.find((one) => one === words);
  if (service !== undefined) return service;
  throw new InvalidArgumentError(`accepted: ${SERVICES.join(', ')}.`);
}

const parseLine =
  (longest: number) =>
  (words: string): string => {
    const text = words.trim();
    if (text !== '' && text.length <= longest) return text;
    throw new InvalidArgumentError(`accepted: a text of 1 to ${longest} characters.`);
  };

function parseFilms(words: string): number {
  const films = Number(words);
  if (/^\d+$/.test(words) && films >= 1 && films <= 100_000) return films;
  throw new InvalidArgumentError('accepted: a whole number from 1 to 100000.');
}
