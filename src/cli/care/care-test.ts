/**
 * `meniscus care test`: tests seal and pump on a closed test piece, guided by the display, and
 * keeps the result.
 */
import type { Command } from 'commander';
import { type GuidedOptions, withGuidedOptions } from './guided-options.ts';

export function addCareTest(care: Command): void {
  const command = care
    .command('test')
    .description('test switches, seal and pump, guided by the display');
  withGuidedOptions(command)
    .addHelpText('after', '\nExample: meniscus care test --by "Demo Person" --speed max\n')
    .action(async (options: GuidedOptions) => {
      const { guidedCommand } = await import('./guided-command.ts');
      const asked = { procedure: 'health', reference: null, values: [] } as const;
      process.exitCode = await guidedCommand(options, asked);
    });
}
