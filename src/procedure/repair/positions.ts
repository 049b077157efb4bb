/**
 * A crack that is longer than what one position of the injector fills: its end is stopped where that
 * is done, and each part is filled and judged before the injector is moved on to the next. It is
 * emptied for the move, so that the seal is tested dry at each position and fresh resin goes in.
 * `work-plan.ts` says how many positions there are.
 */
import type { PhaseId } from '../../core/phases.ts';
import type { Phase, PhaseContext, ProcedureState, Step } from '../phase.ts';
import { handWork, handWorkThen } from '../phase-kinds.ts';

/** Cycles begun at this position. */
export const cyclesHere = ({ cycle, cyclesBefore }: ProcedureState): number => cycle - cyclesBefore;

/** The part under the injector is as good as it gets: the next one, or the cure. */
export function partDone(
  { position, cycle }: ProcedureState,
  { plan }: PhaseContext,
  patch: Partial<ProcedureState> = {},
): Step {
  if (position >= plan.positions.count) return { to: 'injector-off', patch };
  return {
    to: 'move-injector',
    patch: {
      ...patch,
      position: position + 1,
      cyclesBefore: cycle,
      cycleOver: true,
      resinIn: false,
      reseated: false,
      // What was tried on the part before says nothing of this one.
      tried: [],
      passedOver: [],
      remedy: null,
      longPulls: 0,
    },
  };
}

export const POSITION_ROWS = {
  'end-stop': handWork('end-stop', 'clean-pit'),
  'move-injector': handWorkThen('move-injector', ({ position }, { plan }) => ({
    to: 'seal-pull',
    events: [{ kind: 'moved', what: 'injector', to: position, of: plan.positions.count }],
  })),
} as const satisfies Partial<Record<PhaseId, Phase>>;
