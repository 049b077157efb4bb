/**
 * Which vacuum and pressure cycle comes next: planned ones, then offered ones with a remedy before
 * each, then none; and whether the injector is charged with fresh resin before it.
 */
import type { RechargeWhy } from '../../core/events.ts';
import type { PhaseContext, ProcedureState, Step } from '../phase.ts';
import { cyclesHere } from './positions.ts';
import { changesOf, nextRemedy, withRemedy } from './remedies.ts';

/** The number of the cycle that comes next. One that went back to the seal is run again. */
const nextNumber = ({ cycle, cycleOver }: ProcedureState): number =>
  cycleOver ? cycle + 1 : cycle;

export function nextCycle(state: ProcedureState, { profile }: PhaseContext): Step {
  return {
    to: 'evacuate',
    patch: {
      cycle: nextNumber(state),
      cycleOver: false,
      dwellForS: Math.min(profile.vacuum.longestDwellS, state.dwellTimes * profile.vacuum.dwellS),
      dwellTimes: 1,
      vacuumHeldS: 0,
    },
  };
}

/**
 * From the test of the dry seal to the resin; from a later one to the cycles, where a foot that was
 * lifted has left resin on the glass.
 */
export function afterSeal(state: ProcedureState, context: PhaseContext): Step {
  if (!state.resinIn) return { to: 'charge-injector' };
  return state.reseated ? recharge('reseated') : nextCycle(state, context);
}

/** A person says that the first resin is in. */
export function charged(state: ProcedureState, context: PhaseContext): Step {
  const { to, patch } = nextCycle(state, context);
  const { cycle: chargedAtCycle } = state;
  return {
    to,
    patch: { ...patch, resinIn: true, resinInBreak: true, reseated: false, chargedAtCycle },
  };
}

/** After the first cycle a person looks into the injector, unless fresh resin is due anyway. */
export function furtherCycle(state: ProcedureState, { profile }: PhaseContext): Step {
  const since = state.cycle - state.chargedAtCycle;
  return since >= profile.cycles.rechargeAfter ? recharge('after-cycles') : { to: 'ask-resin' };
}

export const recharge = (why: RechargeWhy): Step => ({
  to: 'recharge',
  patch: { rechargeWhy: why },
});

/** A person says that fresh resin is in. */
export function recharged(state: ProcedureState, context: PhaseContext): Step {
  const { to, patch } = nextCycle(state, context);
  const cycle = nextNumber(state);
  const { rechargeWhy: why } = state;
  return {
    to,
    patch: { ...patch, reseated: false, chargedAtCycle: cycle - 1, rechargeWhy: null },
    events: why === null ? [] : [{ kind: 'recharge', cycle, why }],
  };
}

export function notClear(state: ProcedureState, context: PhaseContext): Step {
  const { planned, extra } = context.profile.cycles;
  const run = cyclesHere(state);
  if (run < planned) return furtherCycle(state, context);
  if (run >= planned + extra) return { to: 'accept-mark' };
  return offerRemedy({ ...state, passedOver: [] }, context);
}

/** A plain cycle is offered once no remedy is left. */
function offerRemedy(state: ProcedureState, { profile, damageType }: PhaseContext): Step {
  const { passedOver } = state;
  const remedy = nextRemedy(state, profile, damageType);
  return { to: remedy === null ? 'offer-cycle' : 'offer-remedy', patch: { remedy, passedOver } };
}

/** NO: the next one. */
export function declined(state: ProcedureState, context: PhaseContext): Step {
  const { remedy, cycle, passedOver } = state;
  if (remedy === null) return { to: 'offer-cycle' };
  return {
    ...offerRemedy({ ...state, passedOver: [...passedOver, remedy] }, context),
    events: [{ kind: 'remedy', cycle, remedy, taken: false }],
  };
}

/** A person says that it is done: another cycle follows, by way of what the remedy needs. */
export function carriedOut(state: ProcedureState, context: PhaseContext): Step {
  const { remedy, cycle } = state;
  if (remedy === null) return furtherCycle(state, context);
  const { recharge: fresh = false, reseat = false } = changesOf(remedy);
  const patch = withRemedy(state, remedy);
  const on: Step = reseat
    ? { to: 'seal-pull' }
    : fresh
      ? recharge('thinner-resin')
      : furtherCycle({ ...state, ...patch }, context);
  return {
    ...on,
    patch: { ...patch, ...on.patch },
    events: [{ kind: 'remedy', cycle, remedy, taken: true }],
  };
}
