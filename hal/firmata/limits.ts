/**
 * Gets the host's limits acknowledged: sends them, sends them again when the answer is late or says
 * that they arrived damaged, and gives up by a deadline. Which limit would loosen is named.
 */
import { after, type HostClock } from './clock.ts';
import { type Problem, problemOf } from './errors.ts';
import {
  decodeFields,
  encodeFields,
  type Fields,
  KINDS,
  LIMITS_LAYOUT,
  LIMITS_REPORT_LAYOUT,
  LIMITS_VERDICTS,
} from './protocol.ts';

export type Limits = Fields<typeof LIMITS_LAYOUT>;

export interface LimitsTalk {
  /** The body of a limits report from the board. */
  readonly hear: (body: readonly number[]) => void;
  /** Ends the talk with a problem from elsewhere. */
  readonly fail: (problem: Problem) => void;
  /** Ends the talk and tells nobody. */
  readonly end: () => void;
}

const AGAIN_EVERY_S = 0.3;
const DEADLINE_S = 2;

/** `done` is called once, with null when the limits are in force; not after `end`. */
export function agreeOnLimits(
  limits: Limits,
  clock: HostClock,
  send: (message: readonly number[]) => void,
  done: (problem: Problem | null) => void,
): LimitsTalk {
  const message = encodeFields(KINDS.limits, LIMITS_LAYOUT, limits);
  let over = false;
  const end = (): void => {
    over = true;
    stopSending();
    stopWaiting();
  };
  const finish = (problem: Problem | null): void => {
    if (over) return;
    end();
    done(problem);
  };
  const stopSending = clock.every(AGAIN_EVERY_S, () => send(message));
  const stopWaiting = after(clock, DEADLINE_S, () => finish(problemOf('limits-unanswered')));
  send(message);
  const hear = (body: readonly number[]): void => {
    const report = decodeFields(LIMITS_REPORT_LAYOUT, body);
    if (report === null) return;
    const verdict = LIMITS_VERDICTS[report.verdict] ?? 'malformed';
    if (verdict === 'bad-checksum') return;
    if (verdict !== 'accepted') finish(refusalOf(verdict, report, limits));
    // An answer to an earlier set of limits is none to this one.
    else if (LIMITS_LAYOUT.every(([name]) => report[name] === limits[name])) finish(null);
  };
  return { hear, fail: finish, end };
}

function refusalOf(
  verdict: 'would-loosen' | 'malformed',
  report: Fields<typeof LIMITS_REPORT_LAYOUT>,
  limits: Limits,
): Problem {
  const name = LIMITS_LAYOUT[report.offender]?.[0];
  if (name === undefined) return problemOf('limits-refused', `It says "${verdict}".`);
  const sent = `${name} ${limits[name]}`;
  return problemOf(
    'limits-refused',
    verdict === 'malformed'
      ? `${sent} makes no sense to it.`
      : `${sent} would loosen what is compiled in.`,
  );
}
