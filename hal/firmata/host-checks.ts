/**
 * The host checks twice a tick what it has heard. A check that comes late shows that the host was
 * away, busy or suspended: it first hears what waits for it, and then judges the board. A long
 * absence of the host does not count as silence of the board.
 */
import {
  defer,
  filter,
  interval,
  map,
  merge,
  type Observable,
  type SchedulerLike,
  scan,
  share,
  startWith,
  switchMap,
} from 'rxjs';
import { nowS } from './clock.ts';
import { ProblemError, problemOf } from './errors.ts';

export interface HostCheck {
  readonly atS: number;
  /** Time since the last check. */
  readonly gapS: number;
  /** What waits for the host is still unheard. Never true twice in a row: a slow host judges, too. */
  readonly justBack: boolean;
}

/** After a longer gap, silence counts from the host's return. */
const AWAY_S = 0.5;
const MS_PER_S = 1000;

/** All subscribers share one series of checks. */
export function hostChecks(tickS: number, scheduler: SchedulerLike): Observable<HostCheck> {
  return defer(() => {
    const first: HostCheck = { atS: nowS(scheduler), gapS: 0, justBack: false };
    return interval((tickS * MS_PER_S) / 2, scheduler).pipe(
      scan((before) => {
        const atS = nowS(scheduler);
        const gapS = atS - before.atS;
        return { atS, gapS, justBack: gapS > tickS && !before.justBack };
      }, first),
    );
  }).pipe(share());
}

/** Errors at the first check that finds nothing heard for so long. Counts from the subscription. */
export function silence(
  silenceS: number,
  checks$: Observable<HostCheck>,
  heard$: Observable<unknown>,
  scheduler: SchedulerLike,
): Observable<never> {
  const back$ = checks$.pipe(filter(({ gapS }) => gapS > AWAY_S));
  return merge(heard$, back$).pipe(
    startWith(null),
    switchMap(() => {
      const sinceS = nowS(scheduler);
      return checks$.pipe(filter(({ atS, justBack }) => !justBack && atS - sinceS > silenceS));
    }),
    map(() => {
      throw new ProblemError(problemOf('no-answer', `Nothing came for ${silenceS} s.`));
    }),
  );
}
