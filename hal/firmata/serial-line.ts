/**
 * A line over a serial port of this computer: opens it and maps each failure to a named problem.
 * Every connection gets its own port instance. serialport drives the port.
 */
import { SerialPort } from 'serialport';
import { type Problem, type ProblemCode, ProblemError, problemOf } from './errors.ts';
import type { Line } from './line.ts';
import { BAUD } from './protocol.ts';

/** Errors of the operating systems in serialport's words, and the problem that each one means. */
const OPEN_FAILURES: readonly (readonly [RegExp, ProblemCode])[] = [
  [/no such file|file not found|ENOENT|ENXIO|ENODEV/i, 'port-not-found'],
  [/permission denied|EACCES|EPERM/i, 'port-no-permission'],
  [/cannot lock port|resource busy|EBUSY|access denied/i, 'port-busy'],
  [/inappropriate ioctl|is a directory|not a tty|ENOTTY|EISDIR/i, 'port-not-serial'],
];

export function openFailure(path: string, said: string): Problem {
  const row = OPEN_FAILURES.find(([pattern]) => pattern.test(said));
  return problemOf(row?.[1] ?? 'port-failed', `${path}: ${said.replace(/^Error:? */, '')}.`);
}

/** Rejects with a ProblemError. */
export function openSerialLine(path: string, baudRate = BAUD): Promise<Line> {
  const port = new SerialPort({ path, baudRate, autoOpen: false });
  return new Promise((resolve, reject) => {
    port.open((error) => {
      if (error) reject(new ProblemError(openFailure(path, error.message)));
      else resolve(port);
    });
  });
}
