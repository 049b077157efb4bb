/** What the batch does where the walk through the phases leads out of them, and why. */
import type { Lead as BatchLead } from '../../control/procedure.ts';
import type { PhaseId } from '../../core/phases.ts';
import { type LegLimits, legLimitsOf } from './leg-limits.ts';
import type { Lead } from './repair-phases.ts';
import type { RepairConfig, RepairReason, RepairSay } from './repair-state.ts';

const because = (record: string, say: RepairSay['say']): RepairReason => ({
  record,
  shown: { say },
});

const toEnd = (record: string, say: RepairSay['say']): BatchLead<RepairSay> => ({
  move: 'hold',
  ending: null,
  reason: { ...because(record, say), asks: 'end' },
  read: false,
});

const LEADS: Readonly<Record<NonNullable<Lead>, BatchLead<RepairSay>>> = {
  hold: {
    move: 'hold',
    ending: null,
    reason: because('This step could not be finished.', 'step-unfinished'),
    read: false,
  },
  // Nothing ends by one press: it is asked once more.
  stop: toEnd('You chose to stop here.', 'stopped-by-choice'),
  finish: {
    move: 'finish',
    ending: 'completed',
    reason: because('The repair is done.', 'repair-done'),
    read: false,
  },
};

const LEG_TOO_LONG = 'The leg that grew is past the limit of this repair.';

/** The rule is named where it is what ends the repair, and not the reach of the light. */
const legTooLong = ({ rule }: LegLimits): string =>
  rule === null ? LEG_TOO_LONG : `${LEG_TOO_LONG} Rule: ${rule}`;

/** Phases whose one lead has a reason of its own. */
const LEADS_FROM: Readonly<Partial<Record<PhaseId, (limits: LegLimits) => BatchLead<RepairSay>>>> =
  {
    'measure-leg': (limits) => toEnd(legTooLong(limits), 'leg-too-long'),
    scrape: () => toEnd('The resin is still soft after two further doses.', 'still-soft'),
  };

export const leadOf = (
  lead: NonNullable<Lead>,
  from: PhaseId,
  config: RepairConfig,
): BatchLead<RepairSay> => LEADS_FROM[from]?.(legLimitsOf(config)) ?? LEADS[lead];
