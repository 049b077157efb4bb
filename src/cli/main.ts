/**
 * The command line: which commands exist and what their options mean. Each command has its own
 * file. Exit codes are listed in `exit-codes.ts` and in the README.
 */
import { Command, CommanderError } from 'commander';
import { escapedValue, isPlainText, PLAIN_TEXT } from '../core/plain-text.ts';
import { addAssessCommand } from './assess/assess-command.ts';
import { addBringUpCommand } from './bring-up/bring-up-options.ts';
import { addCalibrateCommand } from './care/calibrate-command.ts';
import { addCareCommand } from './care/care-command.ts';
import { addCareTest } from './care/care-test.ts';
import { addCompletion } from './completion.ts';
import { addJobsCommand } from './jobs/jobs-command.ts';
import { addRecordsCommand } from './records/records-command.ts';
import { replayCommand } from './records/replay-command.ts';
import { addReportCommand } from './records/report-command.ts';
import { addRunCommand } from './run/run-options.ts';
import { addSimulateCommand } from './run/simulate-command.ts';
import { EXIT } from './terminal/exit-codes.ts';
import { optionDescription } from './terminal/help-words.ts';
import { printError } from './terminal/print.ts';

const program = new Command('meniscus')
  .description('Controller of a bench unit that fills and cures stone damage in laminated glass.')
  .exitOverride()
  .configureHelp({ optionDescription })
  .configureOutput({ writeErr: printError })
  .showHelpAfterError('(--help shows what is accepted)');

addRunCommand(program);
addSimulateCommand(program);
addAssessCommand(program);
addCalibrateCommand(program);

program
  .command('ports')
  .description('list serial ports and show which look like a board')
  .addHelpText('after', '\nExample: meniscus ports\n')
  .action(async () => {
    process.exitCode = await (await import('./bring-up/ports-command.ts')).portsCommand();
  });

addBringUpCommand(program);

program
  .command('replay')
  .description("replay a journal's frames through the controller and compare its decisions")
  .argument('<journal>', 'a journal.jsonl')
  .addHelpText('after', '\nExample: meniscus replay records/demo-0001/journal.jsonl\n')
  .action((file) => {
    process.exitCode = replayCommand(file);
  });

addReportCommand(program);
addCareTest(addCareCommand(program));
addJobsCommand(program);
addRecordsCommand(program);
addCompletion(program);

// A closed pipe or terminal must not end a job: the journal has everything.
for (const stream of [process.stdout, process.stderr]) stream.on('error', () => undefined);

/** A group's command without a required name would take a misspelt command for its argument. */
function refuseUnknownCommand(group: Command, [given, ...rest]: readonly string[]): void {
  if (given === undefined || given.startsWith('-') || group.commands.length === 0) return;
  const named = group.commands.find((command) => command.name() === given);
  const known = [...group.commands.map((command) => command.name()), 'help'];
  if (named !== undefined) refuseUnknownCommand(named, rest);
  if (known.includes(given)) return;
  group.error(`error: no such command: ${JSON.stringify(given)}; accepted: ${known.join(', ')}`);
}

/** Names, reasons and notes are arguments; so are paths, which are printed again. */
function refuseUnplainArguments(given: readonly string[]): void {
  const bad = given.find((argument) => !isPlainText(argument));
  if (bad === undefined) return;
  program.error(
    `error: an argument is ${escapedValue(JSON.stringify(bad))}; accepted: ${PLAIN_TEXT}`,
  );
}

try {
  refuseUnplainArguments(process.argv.slice(2));
  refuseUnknownCommand(program, process.argv.slice(2));
  await program.parseAsync();
} catch (error) {
  if (!(error instanceof CommanderError)) throw error;
  process.exitCode = error.exitCode === 0 ? EXIT.completed : EXIT.badInput;
}
