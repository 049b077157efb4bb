/**
 * Everything in a record on which claims may rest, gathered once: the journal's own lines, what the
 * report derived from them, and what the header states beside the settings.
 */
import type { Event, Snapshot } from '../../core/events.ts';
import type { JournalEnd, JournalInputs } from '../../journal/journal-format.ts';
import type { JournalTick } from '../../journal/tick-line.ts';
import type { AlarmRow } from '../alarms-raised.ts';
import type { LimitRow } from '../limit-rows.ts';
import type { CountedDose } from '../report-dose.ts';
import type { SealTestRow } from '../seal-rows.ts';
import type { CycleRow, HoldRow, MeasuredRow, PhaseRow } from '../timeline.ts';
import type { AboutFacts } from './about-facts.ts';

export interface ClaimFacts {
  readonly about: AboutFacts;
  readonly inputs: JournalInputs;
  readonly end: JournalEnd;
  /** Null where the journal has no end. */
  readonly intact: boolean | null;
  readonly ticks: readonly JournalTick[];
  readonly events: readonly Event[];
  readonly snapshots: readonly Snapshot[];
  readonly measured: readonly MeasuredRow[];
  readonly phases: readonly PhaseRow[];
  readonly cycles: readonly CycleRow[];
  readonly holds: readonly HoldRow[];
  readonly alarms: readonly AlarmRow[];
  readonly sealTests: readonly SealTestRow[];
  readonly doses: readonly CountedDose[];
  readonly limits: readonly LimitRow[];
  readonly atmospherePa: number | null;
}

/** The claim's limit row; undefined where the record has none of that name. */
export const limitOf = ({ limits }: ClaimFacts, what: LimitRow['what']): LimitRow | undefined =>
  limits.find((row) => row.what === what);
