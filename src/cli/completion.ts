/**
 * `meniscus completion <shell>`: shell completion of commands and options, derived from the
 * program's actual commands. It is added last, when all of them are defined. Values that commander
 * does not know are listed here.
 */
import tab from '@bomb.sh/tab/commander';
import type { Command } from 'commander';
import { MODEL_BOARDS } from './run/board-options.ts';
import { FAULT_NAMES } from './run/simulated-scenario.ts';

const VALUES: Readonly<Record<string, readonly string[]>> = {
  fault: FAULT_NAMES,
  speed: ['max', '1', '16'],
  port: ['auto'],
  board: MODEL_BOARDS,
};

export function addCompletion(program: Command): void {
  const root = tab(program, { completionCommandName: 'completion' });
  for (const { options } of root.commands.values()) {
    for (const [name, option] of options) {
      const values = VALUES[name];
      if (values === undefined) continue;
      option.handler = (complete) => {
        for (const value of values) complete(value, '');
      };
    }
  }
  const command = program.commands.find((one) => one.name() === 'completion');
  command
    ?.description('print a script for shell completion of commands and options')
    .addHelpText(
      'after',
      '\nExample: source <(meniscus completion bash)   (meniscus must be on the PATH: npm link)\n',
    );
}
