/**
 * What a repair makes of the reason for which a person pressed HOLD. A leg that grew: it is measured
 * where pressure, resin or light are in play, and the job goes on at lower vacuum and pressure, and
 * only when a person says so. Resin on the inner side: the job can only be ended.
 */
import type { HeldFor } from '../../control/procedure.ts';
import type { HoldQuestion, HoldReason } from '../../core/events.ts';
import { CLOSED_PHASES, CURE_PHASES, isResinOpen } from '../../core/phases.ts';
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

/** Before the work on the break and after its cure, a person judges the pane without a limit shown. */
const measured = ({ phase, resinInBreak }: ProcedureState): boolean =>
  CLOSED_PHASES.has(phase) || isResinOpen(phase, resinInBreak) || CURE_PHASES.has(phase);

export function heldFor(
  reason: HoldReason,
  walk: ProcedureState,
  { profile }: RepairConfig,
): HeldFor<Repair> {
  const said = { kind: 'hold-reason', phase: walk.phase, reason } as const;
  if (reason !== 'leg-grew') return { walk, why: WHY[reason], events: [said] };
  const next = lowered(walk, profile);
  const legGrew = walk.legGrew || measured(walk);
  return { walk: { ...next.walk, legGrew }, why: WHY[reason], events: [said, ...next.events] };
}
