/**
 * Decides what of a job goes into the journal: every frame with its answer, every event, and
 * snapshots thinned by the frame's own time, plus one wherever phase or batch state changes.
 */
import { filter, map, merge, type Observable, tap } from 'rxjs';
import type { ProcedureTypes } from '../control/controller-state.ts';
import type { Snapshot } from '../core/events.ts';
import type { Journal } from '../journal/journal.ts';
import type { Streams } from './pipeline.ts';

const SNAPSHOT_EVERY_S = 0.25;

/** For each tick the frame comes first, then its events, then its snapshot. */
export const journalConsumer =
  <P extends ProcedureTypes>(
    journal: Journal,
    keeps: (snapshot: P['snapshot']) => Snapshot | null,
  ) =>
  ({ ticks$, events$, snapshots$ }: Streams<P>): Observable<unknown> =>
    merge(
      ticks$.pipe(tap(({ frame, requests, outputs }) => journal.tick(frame, requests, outputs))),
      events$.pipe(tap(journal.event)),
      snapshots$.pipe(
        map(keeps),
        filter((snapshot) => snapshot !== null),
        filter(thinned()),
        tap(journal.snapshot),
      ),
    );

/** A quarter of a second after the last one kept, and wherever the job changed. */
function thinned(): (snapshot: Snapshot) => boolean {
  let last: Snapshot | null = null;
  return (snapshot) => {
    const due =
      last === null ||
      snapshot.timeS - last.timeS >= SNAPSHOT_EVERY_S - 1e-9 ||
      snapshot.phase !== last.phase ||
      snapshot.batch !== last.batch;
    if (due) last = snapshot;
    return due;
  };
}
