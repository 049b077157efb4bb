/**
 * `meniscus calibrate`: guides a person with reference instruments through a calibration on the
 * unit's own display, and keeps the result. On the simulated board a scripted person does it.
 */
import { Argument, type Command } from 'commander';
import { refuse } from '../terminal/refuse.ts';
import {
  CALIBRATIONS,
  type CalibrationName,
  type GuidedOptions,
  type ReferenceOptions,
  referenceOf,
  unfitValue,
  wavelengthProblem,
  withGuidedOptions,
  withReferenceOptions,
} from './guided-options.ts';

const EXAMPLE = `
Example: meniscus calibrate pressure --by "Demo Person" --reference-name "demo gauge" \\
           --certificate D-1 --reference-uncertainty 0.05 --manual
         meniscus calibrate uv --by "Demo Person" --reference-name "demo radiometer" \\
           --certificate D-2 --reference-uncertainty 4 --at-nm 365 --manual
`;

export function addCalibrateCommand(program: Command): void {
  const command = program
    .command('calibrate')
    .description("calibrate one of the unit's sensors against a reference, guided by its display")
    .addArgument(new Argument('<what>', 'which sensor').choices([...CALIBRATIONS]));
  withReferenceOptions(withGuidedOptions(command))
    .addHelpText('after', EXAMPLE)
    .action(async (what: CalibrationName, options: GuidedOptions & ReferenceOptions) => {
      const unfit = options.values.flatMap((value) => unfitValue(what, value) ?? []);
      const unstated = wavelengthProblem(what, options);
      if (unfit.length > 0 || unstated !== null) {
        const lines = unfit.map((words) => `--values: ${words}`);
        process.exitCode = refuse(unstated === null ? lines : [unstated, ...lines]);
        return;
      }
      const { guidedCommand } = await import('./guided-command.ts');
      const reference = referenceOf(what, options);
      const asked = { procedure: what, reference, values: options.values };
      process.exitCode = await guidedCommand(options, asked);
    });
}
