/** What a record says of the run by itself: measured, timed and tested, before anything is claimed. */
import type { AlarmRow } from './alarms-raised.ts';
import type { LimitRow } from './limit-rows.ts';
import type { SealTestRow } from './seal-rows.ts';
import type { CycleRow, HoldRow, MeasuredRow, PhaseRow } from './timeline.ts';

export interface RunResults {
  readonly limits: readonly LimitRow[];
  readonly atmospherePa: number | null;
  readonly sealTests: readonly SealTestRow[];
  readonly cycles: readonly CycleRow[];
  readonly measured: readonly MeasuredRow[];
  readonly alarms: readonly AlarmRow[];
  readonly holds: readonly HoldRow[];
  readonly phases: readonly PhaseRow[];
}
