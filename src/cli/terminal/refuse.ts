/** Prints why a command did not start, one line each, and returns the exit code for it. */
import { EXIT } from './exit-codes.ts';
import { printError } from './print.ts';

export function refuse(lines: readonly string[]): number {
  printError(`${lines.join('\n')}\nNothing was started.\n`);
  return EXIT.badInput;
}
