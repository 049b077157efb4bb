/**
 * Decides what of each tick goes into the journal: every frame with its answer, every event, and
 * snapshots thinned by the frame's own time, plus one wherever phase or batch state changes.
 */
import type { ProcedureTypes } from '../control/controller-state.ts';
import type { Snapshot } from '../core/events.ts';
import type { Journal } from '../journal/journal.ts';
import type { Tick } from './pipeline.ts';

const SNAPSHOT_EVERY_S = 0.25;

export function journalConsumer<P extends ProcedureTypes>(
  journal: Journal,
  keeps: (snapshot: P['snapshot']) => Snapshot | null,
): (tick: Tick<P>) => void {
  let last: Snapshot | null = null;
  return ({ frame, requests, outputs, events, snapshot: seen }) => {
    journal.tick(frame, requests, outputs);
    for (const event of events) journal.event(event);
    const snapshot = keeps(seen);
    if (snapshot === null) return;
    const due =
      last === null ||
      snapshot.timeS - last.timeS >= SNAPSHOT_EVERY_S - 1e-9 ||
      snapshot.phase !== last.phase ||
      snapshot.batch !== last.batch;
    if (!due) return;
    journal.snapshot(snapshot);
    last = snapshot;
  };
}
