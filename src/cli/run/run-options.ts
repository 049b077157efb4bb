/** The options of `meniscus run` and their meaning; `run-command.ts` does the work. */
import { type Command, Option } from 'commander';
import { LANGUAGES } from '../../app/prepare/languages.ts';
import { collectOverride, OVERRIDABLE } from '../../app/prepare/overrides.ts';
import {
  parseAgreement,
  parseAltitude,
  parseHours,
  parseSeed,
  parseSpeed,
} from '../terminal/parse-option.ts';
import { withBoardOptions } from './board-options.ts';
import { runCommand } from './run-command.ts';
import { collectFault, FAULT_NAMES } from './simulated-scenario.ts';

/** Options that another attempt takes from the job's first one. */
const FIXED_BY_JOB = ['job', 'profile', 'intake'];

export function addRunCommand(program: Command): void {
  const run = program
    .command('run', { isDefault: true })
    .description('run one repair on the simulated board, or on another one, and write its record');
  withUnitOptions(run)
    .option('--job <file>', 'job sheet (JSON)')
    .option('--profile <file>', 'profile (JSON)')
    .option('--records <folder>', 'folder of the records', 'records')
    .addOption(
      new Option('--resume <job>', 'go on with an unfinished job from a safe step').conflicts([
        'cureOnly',
        ...FIXED_BY_JOB,
      ]),
    )
    .addOption(
      new Option('--cure-only <job>', 'only cure the resin of an unfinished job').conflicts(
        FIXED_BY_JOB,
      ),
    )
    .addOption(
      new Option('--hours-later <h>', 'simulated time since the last attempt')
        .argParser(parseHours)
        .default(1),
    )
    .option('--json', 'the result as JSON; the panel goes to standard error', false)
    .addHelpText(
      'after',
      `\nFaults: ${FAULT_NAMES.join(', ')}\nChecks that can be overridden: ${OVERRIDABLE.join(', ')}\nExamples: meniscus run --speed max --fault hose-off\n          meniscus run --board emulated\n          meniscus run --port auto\n`,
    )
    .action(async (options) => {
      process.exitCode = await runCommand(options);
    });
  addPreparation(run);
}

/** The unit, its board, and what is simulated: the same for every command that runs jobs. */
export function withUnitOptions(command: Command): Command {
  return withBoardOptions(command, ['manual', 'speed', 'seed', 'altitude', 'fault', 'plant'])
    .option('--manual', 'you press the buttons: h HOLD, y YES, n NO, m MORE', false)
    .option(
      '--speed <times>',
      'times real time, or max (manual: 1, else 16; emulated: max)',
      parseSpeed,
    )
    .option('--unit <file>', 'settings of the unit (JSON)')
    .option('--seed <n>', 'seed of the simulated bench and person', parseSeed, 1)
    .option('--altitude <m>', 'altitude of the simulated bench above sea level', parseAltitude, 60)
    .option('--fault <name>', 'simulate a fault: a name below, or a file', collectFault, [])
    .option('--plant <file>', 'the simulated plant: break, resin, pane, lamp, air (JSON)')
    .option('--care <file>', 'rules for the care of the unit (JSON)')
    .option(
      '--language <name or folder>',
      `of display and certificate: ${LANGUAGES.join(', ')}, or a folder`,
    );
}

/** What is settled before the job begins. */
function addPreparation(run: Command): void {
  run
    .option('--intake <file>', 'intake sheet (JSON), assessed before the job begins')
    .option('--resin <file>', 'bottle of resin (JSON), replacing the resin of the job sheet')
    .option('--pit-resin <file>', 'bottle of pit resin (JSON)')
    .option('--agreement <text>', 'what was agreed before work began', parseAgreement)
    .option(
      '--override <item=reason>',
      'override a check for this repair; repeatable',
      collectOverride,
      [],
    )
    .option('--by <name>', 'person who overrides it');
}
