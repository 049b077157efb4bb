/**
 * How the host looks after its line: twice a tick. A look that comes late says that the host was
 * away, busy or suspended, and not the board: the host hears what waits for it before it calls the
 * board mute, and a long absence of its own is not the board's silence.
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

export interface Look {
  readonly atS: number;
  /** Since the look before. */
  readonly gapS: number;
  /** What waits for the host has yet to be heard. Never twice in a row: a slow host must judge, too. */
  readonly justBack: boolean;
}

/** A gap like this says that the host was away. */
const AWAY_S = 0.5;
const MS_PER_S = 1000;

/** One series of looks for everybody who subscribes. */
export function hostLooks(tickS: number, scheduler: SchedulerLike): Observable<Look> {
  return defer(() => {
    const first: Look = { atS: nowS(scheduler), gapS: 0, justBack: false };
    return interval((tickS * MS_PER_S) / 2, scheduler).pipe(
      scan((before) => {
        const atS = nowS(scheduler);
        const gapS = atS - before.atS;
        return { atS, gapS, justBack: gapS > tickS && !before.justBack };
      }, first),
    );
  }).pipe(share());
}

/** Errors as soon as a look finds nothing heard for so long; it counts from now on. */
export function silence(
  silenceS: number,
  looks$: Observable<Look>,
  heard$: Observable<unknown>,
  scheduler: SchedulerLike,
): Observable<never> {
  const back$ = looks$.pipe(filter(({ gapS }) => gapS > AWAY_S));
  return merge(heard$, back$).pipe(
    startWith(null),
    switchMap(() => {
      const sinceS = nowS(scheduler);
      return looks$.pipe(filter(({ atS, justBack }) => !justBack && atS - sinceS > silenceS));
    }),
    map(() => {
      throw new ProblemError(problemOf('no-answer', `Nothing came for ${silenceS} s.`));
    }),
  );
}
