/**
 * Where another attempt of a job goes on, from how far the last one came. Work is taken up at the
 * last phase that `core/phases.ts` marks as an entry, never in the middle of a load; before resin
 * was pressed in, at the beginning. To cure only, the way to the cure is taken. What the replayed
 * journal of the last attempt says is carried on: cycles begun, loads lowered, a mark accepted.
 */
import type { Outcome } from '../../core/events.ts';
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
  readonly loadRatio: number;
  readonly outcome: Outcome | null;
}

type Last = Pick<
  ProcedureState,
  'phase' | 'cycle' | 'position' | 'cyclesBefore' | 'loadRatio' | 'outcome'
>;

/**
 * Null where the work begins anew: nothing was pressed into the break yet. A cycle that was begun is
 * begun again, from the bridge on, so that the seal is tested in this attempt too.
 */
export function goOnEntry(last: Last): Entry | null {
  const { phase, cycle, position, cyclesBefore, loadRatio, outcome } = last;
  if (cycle === 0) return null;
  const at = PHASE_IDS.slice(0, PHASE_IDS.indexOf(phase) + 1).findLast((one) =>
    ENTRY_PHASES.has(one),
  );
  if (at === undefined) return null;
  const worked = partOf(phase) === 'cycles' || partOf(phase) === 'seal';
  // At a position to which the injector was just moved none was begun yet.
  const again = worked && cycle > cyclesBefore ? 1 : 0;
  return { at, cycle: cycle - again, position, cyclesBefore, loadRatio, outcome };
}

/** Null where there is no resin in the break to be cured. */
export function cureOnlyEntry(last: Last): Entry | null {
  const later = goOnEntry(last);
  if (later === null) return null;
  const { phase: _, ...carried } = last;
  const isPast = PHASE_IDS.indexOf(later.at) > PHASE_IDS.indexOf('injector-off');
  return isPast && partOf(later.at) === 'cure' ? later : { at: 'injector-off', ...carried };
}

/** Resin in the break was liquid when the last attempt ended: no light had reached its dose. */
export const isResinLiquid = ({ phase, cycle }: Pick<Last, 'phase' | 'cycle'>): boolean =>
  cycle > 0 && PHASES[phase].part !== 'finish';

/** The walk at the start of an attempt that goes on. */
export const enteredWith = ({ at: _, ...carried }: Entry): ProcedureState => ({
  ...PROCEDURE_START,
  ...carried,
  resinInBreak: true,
});
