/**
 * The kinds of phase that the tables use, and what more than one table needs to judge. The phases
 * themselves are in `phase-table.ts` and `seal-phases.ts`.
 */
import type { PhaseId } from '../core/phases.ts';
import type { Phase, PhaseContext, ProcedureState, Step } from './phase.ts';
import { type AirDemand, isVented } from './regulation.ts';

/** Hand work may take as long as the unit's own limit allows. */
const UNIT_LIMIT_S = Number.POSITIVE_INFINITY;
/** A question while vacuum is on the glass waits for less time. */
export const UNDER_VACUUM_S = 180;
/** A set-point counts as reached this close to it: inside the regulator's own +-1.5 kPa. */
export const REACHED_WITHIN_PA = 1_000;

export const vented = (): AirDemand => ({ air: 'vented' });

export const BASE = { lamp: () => false, answerWithinS: null, reachWithinS: () => null } as const;

type StepOf = (state: ProcedureState, context: PhaseContext) => Step;

export const handWork = (self: PhaseId, to: PhaseId, patch: Partial<ProcedureState> = {}): Phase =>
  handWorkThen(self, () => ({ to, patch }));

/** Hand work whose next step depends on how the job stands. */
export function handWorkThen(self: PhaseId, done: StepOf): Phase {
  return {
    ...BASE,
    kind: 'confirm',
    air: vented,
    answerWithinS: UNIT_LIMIT_S,
    resumeAt: self,
    next: (state, context) => (context.answer === 'yes' ? done(state, context) : null),
  };
}

export function question(self: PhaseId, yes: StepOf, no: StepOf): Phase {
  return {
    ...BASE,
    kind: 'question',
    air: vented,
    answerWithinS: UNIT_LIMIT_S,
    resumeAt: self,
    next: (state, context) => {
      if (context.answer === null) return null;
      return context.answer === 'yes' ? yes(state, context) : no(state, context);
    },
  };
}

/**
 * The vent empties a full chamber in under a second; longer means that the zero is not the air's.
 */
export const VENTS_WITHIN_S = 15;
const EMPTIES_IN_S = 1;

export const isLetDown = (
  { atmospherePa }: ProcedureState,
  { pressurePa }: PhaseContext,
): boolean => atmospherePa !== null && pressurePa !== null && isVented(pressurePa, atmospherePa);

/** The chamber is opened to the air. Time shows that it is empty, too: a reading alone may lie. */
export const lettingDown = (self: PhaseId, then: StepOf): Phase => ({
  ...BASE,
  kind: 'automatic',
  air: vented,
  reachWithinS: () => VENTS_WITHIN_S,
  resumeAt: self,
  next: (state, context) =>
    state.elapsedS >= EMPTIES_IN_S && isLetDown(state, context) ? then(state, context) : null,
});

export const belowVacuum = (setPointPa: number, { pressurePa }: PhaseContext): boolean =>
  pressurePa !== null && pressurePa <= setPointPa + REACHED_WITHIN_PA;
