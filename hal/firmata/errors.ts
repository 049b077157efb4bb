/**
 * Everything that can stop a board from being used, by name: one sentence on what was seen and one
 * on what to do. The driver returns problems as data; the composition root decides how to show
 * them.
 */
export const PROBLEMS = {
  'port-none': {
    sentence: 'No serial port looks like a board.',
    advice: 'Plug the board in, or name its port.',
  },
  'port-several': {
    sentence: 'More than one serial port looks like a board.',
    advice: 'Name the port of the board that is meant.',
  },
  'port-not-found': {
    sentence: 'There is no such port.',
    advice: 'Check the cable and the name of the port.',
  },
  'port-no-permission': {
    sentence: 'This user may not open the port.',
    advice:
      'On Linux, add the user to the group that owns the port (often "dialout": ' +
      'sudo usermod -aG dialout USER) and log in again.',
  },
  'port-busy': {
    sentence: 'Another program has the port open.',
    advice: 'Close the other program: a serial monitor, an uploader, or a second controller.',
  },
  'port-not-serial': {
    sentence: 'This is not a serial port.',
    advice: 'Name the port of the board, not a file or folder.',
  },
  'port-gone': {
    sentence: 'The port went away while it was open.',
    advice: 'Check cable and supply of the board.',
  },
  'port-failed': {
    sentence: 'The port could not be opened.',
    advice: 'See what the operating system says.',
  },
  'no-answer': {
    sentence: 'The board did not answer.',
    advice: 'Check that our firmware is on the board and that this is its port.',
  },
  'wrong-firmware': {
    sentence: 'Another firmware is on the board, so nothing protects the unit.',
    advice: 'Write our firmware to the board; for wiring tests only, open it as a stock board.',
  },
  'wrong-version': {
    sentence: 'The firmware speaks another version of the messages.',
    advice: 'Write the firmware of this release to the board.',
  },
  'limits-refused': {
    sentence: 'The board refused the limits.',
    advice: 'Limits that are sent may only tighten those compiled into the firmware.',
  },
  'limits-unanswered': {
    sentence: 'The board did not acknowledge the limits.',
    advice: 'Check the cable: too many messages are damaged.',
  },
  'driver-failed': {
    sentence: 'The driver of the board failed.',
    advice: 'Start the program again.',
  },
  'not-firmata': {
    sentence: 'No Firmata firmware answered.',
    advice: 'Write a stock Firmata firmware to the board for wiring tests.',
  },
} as const;

export type ProblemCode = keyof typeof PROBLEMS;

export interface Problem {
  readonly code: ProblemCode;
  /** What was seen, as a sentence or two. */
  readonly words: string;
  readonly advice: string;
}

export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: Problem };

export function problemOf(code: ProblemCode, detail = ''): Problem {
  const { sentence, advice } = PROBLEMS[code];
  return { code, words: detail === '' ? sentence : `${sentence} ${detail}`, advice };
}

export const refuse = (
  code: ProblemCode,
  detail?: string,
): { readonly ok: false; readonly problem: Problem } => ({
  ok: false,
  problem: problemOf(code, detail),
});

/** A problem on its way out of a stream or a promise that has nothing else to give. */
export class ProblemError extends Error {
  override name = 'ProblemError';
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(`${problem.words} ${problem.advice}`);
    this.problem = problem;
  }
}

/** What ended a stream; errors without a name get this one. */
export const problemIn = (error: unknown, otherwise: ProblemCode = 'driver-failed'): Problem =>
  error instanceof ProblemError ? error.problem : problemOf(otherwise, String(error));
