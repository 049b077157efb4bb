/**
 * Where another attempt of a job goes on, from how far the last one came. Work is taken up at the
 * last phase that `core/phases.ts` marks as an entry, never in the middle of a load; before resin
 * was pressed in, at the beginning. To cure only, the way to the cure is taken. What the replayed
 * journal of the last attempt says is carried on: cycles begun, loads lowered, remedies tried, a mark
 * accepted.
 */
import type { Outcome, RemedyId } from '../../core/events.ts';
import { ENTRY_PHASES, PHASE_IDS, PHASES, type PhaseId, partOf } from '../../core/phases.ts';
import { PROCEDURE_START, type ProcedureState } from '../phase.ts';

/** Go on, or only cure the resin that is in the break. */
export const WAYS_ON = ['go-on', 'cure-only'] as const;
export type WayOn = (typeof WAYS_ON)[number];

export interface Entry {
  readonly at: PhaseId;
  readonly cycle: number;
  /** Of the injector, and the cycles before it. */
  readonly position: number;
  readonly cyclesBefore: number;
  /** What a leg that grew and a remedy have left of the loads, and the remedies tried here. */
  readonly loadRatio: number;
  readonly pressureRatio: number;
  readonly tried: readonly RemedyId[];
  readonly outcome: Outcome | null;
  /** A leg grew, and nobody has measured it yet: that comes before anything loads the pane again. */
  readonly legGrew: boolean;
}

type Last = Pick<
  ProcedureState,
  | 'phase'
  | 'goesOnAt'
  | 'cycle'
  | 'cycleOver'
  | 'position'
  | 'cyclesBefore'
  | 'loadRatio'
  | 'pressureRatio'
  | 'tried'
  | 'outcome'
  | 'legGrew'
  | 'resinInBreak'
>;

/** What an attempt takes over from the one before. */
const carried = ({
  cycle,
  position,
  cyclesBefore,
  loadRatio,
  pressureRatio,
  tried,
  outcome,
}: Last) => ({
  cycle,
  position,
  cyclesBefore,
  loadRatio,
  pressureRatio,
  tried,
  outcome,
});

const placeOf = (phase: PhaseId): number => PHASE_IDS.indexOf(phase);

/** The last step that every attempt takes before it is at its own work. */
const LAST_BEFORE_WORK = placeOf('protect');

/**
 * How far the job came. A leg that is measured, or a pane on its way into its range, interrupts the
 * work and is no place in it. An attempt that ended before it was at its own work leaves the job
 * where the attempt before had left it; one that went back to an earlier step leaves it there.
 */
function cameTo(
  { phase: shown, goesOnAt }: Pick<Last, 'phase' | 'goesOnAt'>,
  entry: Entry | undefined,
): PhaseId {
  const phase = goesOnAt ?? shown;
  return entry !== undefined && placeOf(phase) <= LAST_BEFORE_WORK ? entry.at : phase;
}

/**
 * Null where the work begins again from nothing: no resin came into the break yet. A cycle that was
 * begun is begun again, from the bridge on, so that the seal is tested in this attempt too. `entry`:
 * where the last attempt had gone on itself.
 */
export function goOnEntry(last: Last, entry?: Entry): Entry | null {
  const { cycle, cycleOver, resinInBreak } = last;
  if (!resinInBreak) return null;
  const phase = cameTo(last, entry);
  const at = PHASE_IDS.slice(0, placeOf(phase) + 1).findLast((one) => ENTRY_PHASES.has(one));
  if (at === undefined) return null;
  const begun = partOf(phase) === 'cycles' || (partOf(phase) === 'seal' && !cycleOver);
  const legGrew = last.legGrew || last.phase === 'measure-leg';
  return { at, ...carried(last), cycle: cycle - (begun ? 1 : 0), legGrew };
}

/** Null where there is no resin in the break to be cured. */
export function cureOnlyEntry(last: Last, entry?: Entry): Entry | null {
  const later = goOnEntry(last, entry);
  if (later === null) return null;
  const isPast = placeOf(later.at) > placeOf('injector-off');
  const at = isPast && partOf(later.at) === 'cure' ? later.at : 'injector-off';
  // Light does not load the pane: however long the leg is, its resin may be set.
  return { ...carried(last), at, legGrew: false };
}

/** Resin in the break was liquid when the last attempt ended: no light had reached its dose. */
export const isResinLiquid = (
  { resinInBreak, ...last }: Pick<Last, 'phase' | 'goesOnAt' | 'resinInBreak'>,
  entry?: Entry,
): boolean => resinInBreak && PHASES[cameTo(last, entry)].part !== 'finish';

/** The walk at the start of an attempt that goes on. */
export const enteredWith = ({ at: _, ...taken }: Entry): ProcedureState => ({
  ...PROCEDURE_START,
  ...taken,
  resinInBreak: true,
});
