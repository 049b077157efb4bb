/**
 * The command line: which commands there are and what their options mean. What each does is in its
 * own file. Exit codes are listed in `exit-codes.ts` and in the README.
 */
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { CHECKLIST } from '../../wiring/checklist.ts';
import { EXIT } from './exit-codes.ts';
import { replayCommand } from './replay-command.ts';
import { reportCommand } from './report-command.ts';
import { runCommand } from './run-command.ts';
import { FAULT_NAMES, isFaultFile } from './simulated-scenario.ts';

const STEP_IDS = CHECKLIST.map(({ id }) => id);

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

function collectStep(id: string, ids: readonly string[]): readonly string[] {
  if (STEP_IDS.includes(id)) return [...ids, id];
  throw new InvalidArgumentError(`accepted: ${STEP_IDS.join(', ')}.`);
}

const program = new Command('meniscus')
  .description('Controller of a bench unit that fills and cures stone damage in laminated glass.')
  .exitOverride()
  .showHelpAfterError('(--help shows what is accepted)');

program
  .command('run', { isDefault: true })
  .description('run one repair on the simulated board, or on a real one, and write its record')
  .addOption(
    new Option('--port <name>', 'a real board: its serial port, or auto').conflicts([
      'manual',
      'speed',
      'seed',
      'altitude',
      'fault',
      'plant',
    ]),
  )
  .option('--manual', 'you press the buttons: y YES, n NO, m MORE', false)
  .option('--speed <times>', 'times real time, or max (manual: 1, else 16)', parseSpeed)
  .option('--job <file>', 'job sheet (JSON)')
  .option('--profile <file>', 'profile (JSON)')
  .option('--unit <file>', 'settings of the unit (JSON)')
  .option('--seed <n>', 'seed of the simulated board and person', parseSeed, 1)
  .option('--altitude <m>', 'where the simulated bench stands, above sea level', parseAltitude, 60)
  .option('--fault <name>', 'something goes wrong: a name below, or a file', collectFault, [])
  .option('--plant <file>', 'what is simulated: break, resin, pane, lamp, air (JSON)')
  .option('--records <folder>', 'where records go', 'records')
  .addHelpText(
    'after',
    `\nFaults: ${FAULT_NAMES.join(', ')}\nExamples: meniscus run --speed max --fault hose-off\n          meniscus run --port auto\n`,
  )
  .action(async (options) => {
    process.exitCode = await runCommand(options);
  });

program
  .command('ports')
  .description('list serial ports and tell which look like a board')
  .addHelpText('after', '\nExample: meniscus ports\n')
  .action(async () => {
    process.exitCode = await (await import('./ports-command.ts')).portsCommand();
  });

program
  .command('bench')
  .description('bring up a freshly wired unit: walk through the checklist, channel by channel')
  .requiredOption('--port <name>', 'serial port of the board, or auto')
  .option('--unit <file>', 'settings of the unit (JSON)')
  .option('--step <id>', 'only this step; may be given again', collectStep, [])
  .option('--records <folder>', 'where the result goes', 'records')
  .option(
    '--stock',
    'a board with a stock Firmata firmware: shows the wires, drives nothing',
    false,
  )
  .option('--unlock <words>', 'with --stock: the words that it asks for before it drives anything')
  .addHelpText('after', `\nSteps: ${STEP_IDS.join(', ')}\nExample: meniscus bench --port auto\n`)
  .action(async (options) => {
    process.exitCode = options.stock
      ? await (await import('./stock-command.ts')).stockCommand(options.port, options.unlock)
      : await (await import('./bench-command.ts')).benchCommand(options);
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
