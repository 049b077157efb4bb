/**
 * Everything that commands print as text goes through here: what stands in a record, a file or an
 * error can then not steer the terminal. The live picture of a job draws by itself.
 */
import { escapedLines } from '../../core/plain-text.ts';

export const print = (text: string): void => void process.stdout.write(escapedLines(text));

/** To the standard error. */
export const printError = (text: string): void => void process.stderr.write(escapedLines(text));
