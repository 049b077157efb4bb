/**
 * All text that commands print passes through here, so that text from records, files or errors
 * cannot control the terminal. The live picture of a job draws itself.
 */
import { escapedLines } from '../../core/plain-text.ts';

export const print = (text: string): void => void process.stdout.write(escapedLines(text));

/** To standard error. */
export const printError = (text: string): void => void process.stderr.write(escapedLines(text));
