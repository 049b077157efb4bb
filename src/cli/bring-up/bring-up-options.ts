/** The options of `meniscus bench`; what the command does is in `bring-up-command.ts`. */
import { type Command, InvalidArgumentError } from 'commander';
import { CHECKLIST } from '../../../wiring/checklist/checklist.ts';
import { MODEL_BOARDS, type ModelBoardKind, withBoardOptions } from '../run/board-options.ts';
import { refuse } from '../terminal/refuse.ts';

const STEP_IDS = CHECKLIST.map(({ id }) => id);

function collectStep(id: string, ids: readonly string[]): readonly string[] {
  if (STEP_IDS.includes(id)) return [...ids, id];
  throw new InvalidArgumentError(`accepted: ${STEP_IDS.join(', ')}.`);
}

interface Options {
  readonly port?: string;
  readonly board?: ModelBoardKind;
  readonly unit?: string;
  readonly step: readonly string[];
  readonly records: string;
  readonly stock: boolean;
  readonly unlock?: string;
}

export function addBringUpCommand(program: Command): void {
  const session = program
    .command('bench')
    .description('bring up a freshly wired unit: walk through the checklist, channel by channel');
  withBoardOptions(session, [], null)
    .option('--unit <file>', 'settings of the unit (JSON)')
    .option('--step <id>', 'only this step; repeatable', collectStep, [])
    .option('--records <folder>', 'folder for the result', 'records')
    .option(
      '--stock',
      'a board with a stock Firmata firmware: shows the wires, drives nothing',
      false,
    )
    .option('--unlock <words>', 'with --stock: the phrase required before it drives anything')
    .addHelpText('after', `\nSteps: ${STEP_IDS.join(', ')}\nExample: meniscus bench --port auto\n`)
    .action(async (options: Options) => {
      process.exitCode = await benchOrStock(options);
    });
}

async function benchOrStock(options: Options): Promise<number> {
  const { port, board, stock, unlock } = options;
  if (stock && port === undefined) return refuse(['--stock needs --port NAME or --port auto.']);
  if (stock && port !== undefined) {
    return await (await import('./stock-command.ts')).stockCommand(port, unlock);
  }
  if (port === undefined && board === undefined) {
    return refuse([`bench needs --port NAME, --port auto or --board ${MODEL_BOARDS.join('|')}.`]);
  }
  return await (await import('./bring-up-command.ts')).bringUpCommand(options);
}
