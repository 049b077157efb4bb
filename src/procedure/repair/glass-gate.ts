/**
 * The gate before hand work on a pane that is too cold or too hot for the profile: the pane is
 * brought into the range as a whole, and the job goes on by itself, to hand work, once it has stayed
 * inside. A pane without a valid reading is not shown to be inside. The alarms judge how fast it
 * changes.
 */
import type { PhaseId } from '../../core/phases.ts';
import type { Phase, PhaseContext, ProcedureState, Step } from '../phase.ts';
import { BASE, vented } from '../phase-kinds.ts';

/** Inside by this much, so that a draught does not lead straight into an alarm, K; demo. */
const INSIDE_BY_K = 0.5;
/** Inside for this long, s; demo. */
const INSIDE_FOR_S = 5;

type Glass = Pick<PhaseContext, 'glassK' | 'profile'>;

export const isGlassInside = ({ glassK, profile: { glass } }: Glass): boolean =>
  glassK !== null && glassK >= glass.lowestK && glassK <= glass.highestK;

const isWellInside = ({ glassK, profile: { glass } }: Glass): boolean =>
  glassK !== null &&
  glassK >= glass.lowestK + INSIDE_BY_K &&
  glassK <= glass.highestK - INSIDE_BY_K;

/** On to hand work, by way of the gate where the pane needs it. */
export const throughGlassGate = (to: PhaseId, glass: Glass): Step =>
  isGlassInside(glass) ? { to } : { to: 'glass-gate', patch: { goesOnAt: to } };

export const GLASS_GATE: Phase = {
  ...BASE,
  kind: 'automatic',
  air: vented,
  resumeAt: 'glass-gate',
  // The phase's clock runs from the last moment outside.
  observe: (state, context) => (isWellInside(context) ? state : { ...state, elapsedS: 0 }),
  next: ({ elapsedS, goesOnAt }: ProcedureState): Step | null =>
    elapsedS >= INSIDE_FOR_S ? { to: goesOnAt ?? 'clean-pit', patch: { goesOnAt: null } } : null,
};
