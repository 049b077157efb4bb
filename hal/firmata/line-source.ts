/**
 * The lines to one port as a stream: each subscriber gets a line of its own. It closes when the
 * subscriber leaves, even if it opens only afterwards. A port can be open once, so the next line
 * waits until the last one has closed.
 */
import {
  catchError,
  concatWith,
  defer,
  finalize,
  firstValueFrom,
  from,
  NEVER,
  type Observable,
  of,
  type SchedulerLike,
  switchMap,
  timeout,
} from 'rxjs';
import { ProblemError, problemIn } from './errors.ts';
import type { Line, OpenLine } from './line.ts';

export interface LineSource {
  /** Errors with a ProblemError when the line does not open; never completes. */
  readonly line$: Observable<Line>;
  /** Resolves when no line is open or closing. */
  readonly released: () => Promise<void>;
}

/** A driver that hangs on closing must not keep the program from ending. */
const CLOSING_MS = 2000;

export function createLineSource(openLine: OpenLine, scheduler: SchedulerLike): LineSource {
  let released: Promise<void> = Promise.resolve();
  const line$ = defer(() => released).pipe(
    switchMap(() => {
      const opening = Promise.resolve().then(openLine);
      const close = (): void => {
        released = opening.then(
          (line) => closed(line, scheduler),
          () => undefined,
        );
      };
      return from(opening).pipe(
        catchError((error) => {
          throw new ProblemError(problemIn(error, 'port-failed'));
        }),
        concatWith(NEVER),
        finalize(close),
      );
    }),
  );
  return { line$, released: () => released };
}

/** A line that fails to close is gone already. */
function closed(line: Line, scheduler: SchedulerLike): Promise<void> {
  // A port may fail once more while it closes, and nobody may crash.
  line.on('error', () => undefined);
  if (!line.isOpen) return Promise.resolve();
  const closing = new Promise<void>((resolve) => {
    line.close(() => resolve());
  });
  const giveUp = { first: CLOSING_MS, with: () => of(undefined), scheduler };
  return firstValueFrom(from(closing).pipe(timeout(giveUp)));
}
