/** Which vacuum and pressure cycle comes next: planned ones, then offered ones, then none. */
import type { PhaseContext, ProcedureState, Step } from '../phase.ts';

export function nextCycle(state: ProcedureState, { profile }: PhaseContext): Step {
  return {
    to: 'evacuate',
    patch: { cycle: state.cycle + 1, dwellForS: profile.vacuum.dwellS, vacuumHeldS: 0 },
  };
}

export function notClear(state: ProcedureState, context: PhaseContext): Step {
  const { planned, extra } = context.profile.cycles;
  if (state.cycle < planned) return nextCycle(state, context);
  return { to: state.cycle < planned + extra ? 'offer-cycle' : 'accept-mark' };
}
