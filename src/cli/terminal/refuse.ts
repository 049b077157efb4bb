/** Says why a command did not start, a line each, and gives the exit code for it. */
import { EXIT } from './exit-codes.ts';
import { printError } from './print.ts';

export function refuse(lines: readonly string[]): number {
  printError(`${lines.join('\n')}\nNothing was started.\n`);
  return EXIT.badInput;
}
