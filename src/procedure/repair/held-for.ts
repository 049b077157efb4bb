/**
 * What a repair makes of the reason for which a person pressed HOLD. A leg that grew: the job goes on
 * at lower vacuum and pressure, and only when a person says so. Resin on the inner side: the job can
 * only be ended.
 */
import type { HeldFor } from '../../control/procedure.ts';
import type { HoldQuestion, HoldReason } from '../../core/events.ts';
import type { ProcedureState } from '../phase.ts';
import { lowered } from './loads.ts';
import type { Repair, RepairConfig, RepairReason } from './repair-state.ts';

/** In this order: the one that must not go on unseen comes first. */
export const HOLD_QUESTIONS: readonly HoldQuestion[] = ['leg-grew', 'resin-inside'];

const WHY: Readonly<Record<HoldReason, RepairReason>> = {
  'leg-grew': {
    record: 'HOLD was pressed because a leg grew.',
    shown: { say: 'leg-grew' },
  },
  'resin-inside': {
    record: 'HOLD was pressed because resin shows on the inner side.',
    shown: { say: 'resin-inside' },
    mustEnd: true,
  },
  'something-else': {
    record: 'HOLD was pressed for something else.',
    shown: { say: 'held-by-hand' },
  },
};

export function heldFor(
  reason: HoldReason,
  walk: ProcedureState,
  { profile }: RepairConfig,
): HeldFor<Repair> {
  const said = { kind: 'hold-reason', phase: walk.phase, reason } as const;
  const next = reason === 'leg-grew' ? lowered(walk, profile) : { walk, events: [] };
  return { walk: next.walk, why: WHY[reason], events: [said, ...next.events] };
}
