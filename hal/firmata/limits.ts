/**
 * Gets the host's limits acknowledged: sends them, repeats them when the answer is late or reports
 * damage, and gives up at a deadline. A refusal names the limit that would loosen.
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

/**
 * `reports$`: bodies of the board's reports on limits. Emits once, when the limits are in force: the
 * number of the last outputs that the board has taken.
 */
export function agreeOnLimits(
  limits: Limits,
  send: (message: readonly number[]) => void,
  reports$: Observable<readonly number[]>,
  scheduler: SchedulerLike,
): Observable<number> {
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
      if (typeof answer !== 'number') throw new ProblemError(answer);
      return answer;
    }),
  );
}

function answerIn(body: readonly number[], limits: Limits): number | 'none' | Problem {
  const report = decodeFields(LIMITS_REPORT_LAYOUT, body);
  if (report === null) return 'none';
  const verdict = LIMITS_VERDICTS[report.verdict] ?? 'malformed';
  if (verdict === 'bad-checksum') return 'none';
  if (verdict !== 'accepted') return refusalOf(verdict, report, limits);
  // An answer to an earlier set of limits does not answer this one.
  return LIMITS_LAYOUT.every(([name]) => report[name] === limits[name]) ? report.taken : 'none';
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
