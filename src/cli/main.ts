/**
 * The command line: which commands there are and what their options mean. What each does is in its
 * own file. Exit codes are listed in `exit-codes.ts` and in the README.
 */
import { Command, CommanderError, InvalidArgumentError } from 'commander';
import { EXIT } from './exit-codes.ts';
import { replayCommand } from './replay-command.ts';
import { reportCommand } from './report-command.ts';
import { runCommand } from './run-command.ts';
import { FAULT_NAMES, isFaultFile } from './simulated-scenario.ts';

function parseSpeed(words: string): number | 'max' {
  if (words === 'max') return 'max';
  const speed = Number(words);
  if (words.trim() !== '' && speed >= 0.1 && speed <= 1000) return speed;
  throw new InvalidArgumentError('accepted: max, or times real time from 0.1 to 1000.');
}

function parseSeed(words: string): number {
  const seed = Number(words);
  if (/^\d+$/.test(words) && seed <= 0x7fffffff) return seed;
  throw new InvalidArgumentError('accepted: a whole number from 0 to 2147483647.');
}

function parseAltitude(words: string): number {
  const altitudeM = Number(words);
  if (words.trim() !== '' && altitudeM >= -400 && altitudeM <= 4000) return altitudeM;
  throw new InvalidArgumentError('accepted: metres above sea level from -400 to 4000.');
}

function collectFault(name: string, names: readonly string[]): readonly string[] {
  if (FAULT_NAMES.includes(name) || isFaultFile(name)) return [...names, name];
  throw new InvalidArgumentError(`accepted: ${FAULT_NAMES.join(', ')}, or a .json file.`);
}

const program = new Command('meniscus')
  .description('Controller of a bench unit that fills and cures stone damage in laminated glass.')
  .exitOverride()
  .showHelpAfterError('(--help shows what is accepted)');

program
  .command('run', { isDefault: true })
  .description('run one repair on the simulated board and write its record')
  .option('--manual', 'you press the buttons: y YES, n NO, m MORE', false)
  .option('--speed <times>', 'times real time, or max (manual: 1, else 16)', parseSpeed)
  .option('--job <file>', 'job sheet (JSON)')
  .option('--profile <file>', 'profile (JSON)')
  .option('--unit <file>', 'settings of the unit (JSON)')
  .option('--seed <n>', 'seed of the simulated board and person', parseSeed, 1)
  .option('--altitude <m>', 'where the simulated bench stands, above sea level', parseAltitude, 60)
  .option('--fault <name>', 'something goes wrong: a name below, or a file', collectFault, [])
  .option('--records <folder>', 'where records go', 'records')
  .addHelpText(
    'after',
    `\nFaults: ${FAULT_NAMES.join(', ')}\nExample: meniscus run --speed max --fault hose-off\n`,
  )
  .action(async (options) => {
    process.exitCode = await runCommand(options);
  });

program
  .command('replay')
  .description("run a journal's frames through the controller again and compare its decisions")
  .argument('<journal>', 'a journal.jsonl')
  .addHelpText('after', '\nExample: meniscus replay records/demo-0001/journal.jsonl\n')
  .action((file) => {
    process.exitCode = replayCommand(file);
  });

program
  .command('report')
  .description('write report.html and report.json beside a journal')
  .argument('<journal>', 'a journal.jsonl')
  .addHelpText('after', '\nExample: meniscus report records/demo-0001/journal.jsonl\n')
  .action((file) => {
    process.exitCode = reportCommand(file);
  });

// A reader that went away (a closed pipe or terminal) must not end a job: the journal has it all.
for (const stream of [process.stdout, process.stderr]) stream.on('error', () => undefined);

try {
  await program.parseAsync();
} catch (error) {
  if (!(error instanceof CommanderError)) throw error;
  process.exitCode = error.exitCode === 0 ? EXIT.completed : EXIT.badInput;
}
