/**
 * Gets the host's limits acknowledged: sends them, sends them again when the answer is late or says
 * that they arrived damaged, and gives up by a deadline. Which limit would loosen is named.
 */
import {
  filter,
  ignoreElements,
  interval,
  map,
  merge,
  type Observable,
  type SchedulerLike,
  startWith,
  take,
  tap,
  timeout,
} from 'rxjs';
import { type Problem, ProblemError, problemOf } from './errors.ts';
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

const AGAIN_EVERY_MS = 300;
const DEADLINE_MS = 2000;

/** `reports$`: bodies of the board's reports on limits. Emits once, when the limits are in force. */
export function agreeOnLimits(
  limits: Limits,
  send: (message: readonly number[]) => void,
  reports$: Observable<readonly number[]>,
  scheduler: SchedulerLike,
): Observable<void> {
  const message = encodeFields(KINDS.limits, LIMITS_LAYOUT, limits);
  const sending$ = interval(AGAIN_EVERY_MS, scheduler).pipe(
    startWith(0),
    tap(() => send(message)),
    ignoreElements(),
  );
  const answers$ = reports$.pipe(
    map((body) => answerIn(body, limits)),
    filter((answer) => answer !== 'none'),
  );
  const giveUp = (): never => {
    throw new ProblemError(problemOf('limits-unanswered'));
  };
  return merge(answers$, sending$).pipe(
    take(1),
    timeout({ first: DEADLINE_MS, with: giveUp, scheduler }),
    map((answer) => {
      if (answer !== 'accepted') throw new ProblemError(answer);
    }),
  );
}

function answerIn(body: readonly number[], limits: Limits): 'accepted' | 'none' | Problem {
  const report = decodeFields(LIMITS_REPORT_LAYOUT, body);
  if (report === null) return 'none';
  const verdict = LIMITS_VERDICTS[report.verdict] ?? 'malformed';
  if (verdict === 'bad-checksum') return 'none';
  if (verdict !== 'accepted') return refusalOf(verdict, report, limits);
  // An answer to an earlier set of limits is none to this one.
  return LIMITS_LAYOUT.every(([name]) => report[name] === limits[name]) ? 'accepted' : 'none';
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
