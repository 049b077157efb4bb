/**
 * Everything in a record on which claims may rest, gathered once: the journal's own lines, what the
 * report derived from them, and what the header states beside the settings.
 */
import type { Event, Snapshot } from '../../core/events.ts';
import { CURE_PHASES } from '../../core/phases.ts';
import type { JournalEnd, JournalInputs } from '../../journal/journal-format.ts';
import type { JournalTick } from '../../journal/tick-line.ts';
import type { CountedDose } from '../report-dose.ts';
import type { RunResults } from '../run-results.ts';
import type { PhaseRow } from '../timeline.ts';
import type { AboutFacts } from './about-facts.ts';

export interface ClaimFacts extends RunResults {
  readonly about: AboutFacts;
  readonly inputs: JournalInputs;
  readonly end: JournalEnd;
  /** Null where the journal has no end. */
  readonly intact: boolean | null;
  readonly ticks: readonly JournalTick[];
  readonly events: readonly Event[];
  readonly snapshots: readonly Snapshot[];
  readonly doses: readonly CountedDose[];
}

/** One row for each cure; one that was held is one cure. */
export const curesIn = ({ phases }: Pick<ClaimFacts, 'phases'>): readonly PhaseRow[] =>
  phases.filter(({ phase }, index) => CURE_PHASES.has(phase) && phases[index - 1]?.phase !== phase);
