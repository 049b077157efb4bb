/**
 * Walks through the phases: one tick of time, at most one step. It knows neither alarms nor batch
 * states; the controller calls it only while the batch is running, so that a phase's clock stands
 * still while the job is held.
 */

import { type Answer, measuredEvents, type UnstampedEvent } from '../../core/events.ts';
import type { PhaseId } from '../../core/phases.ts';
import {
  type Phase,
  type PhaseContext,
  type ProcedureState,
  type Step,
  stateAfter,
} from '../phase.ts';
import { darkLookAtStart } from './cure/cure-phases.ts';
import { PHASE_TABLE } from './phase-table.ts';

/** What the batch must do after this tick; null to keep running. */
export type Lead = 'hold' | 'stop' | 'finish' | null;

export interface ProcedureStep {
  readonly state: ProcedureState;
  readonly lead: Lead;
  readonly events: readonly UnstampedEvent[];
}

export function phaseOf({ phase }: ProcedureState): Phase {
  return PHASE_TABLE[phase];
}

export function stepProcedure(state: ProcedureState, context: PhaseContext): ProcedureStep {
  const phase = phaseOf(state);
  const elapsed = stateAfter(state, context.dtS);
  const observed = phase.observe?.(elapsed, context) ?? elapsed;
  const step = phase.next(observed, context);
  const answered = answerEvent(state.phase, phase, context.answer);
  if (step === null) return { state: observed, lead: null, events: answered };
  const measured = measuredEvents(step.measured ?? []);
  const moved = take(observed, step);
  const entered = moved.lead === null ? [enteredEvent(moved.state)] : [];
  return { ...moved, events: [...answered, ...measured, ...(step.events ?? []), ...entered] };
}

/**
 * Enters the phase in which a held job resumes, from its beginning; a leg that grew is measured
 * first.
 */
export function resume(state: ProcedureState): ProcedureState {
  const { resumeAt } = phaseOf(state);
  if (!state.legGrew) return enter(state, resumeAt);
  const goesOnAt = state.phase === 'measure-leg' ? state.goesOnAt : resumeAt;
  return enter({ ...state, legGrew: false, goesOnAt }, 'measure-leg');
}

export function enteredEvent({ phase, cycle }: ProcedureState): UnstampedEvent {
  return { kind: 'phase', phase, cycle };
}

function take(state: ProcedureState, { to, patch }: Step): Pick<ProcedureStep, 'state' | 'lead'> {
  const patched = { ...state, ...patch };
  if (to === 'hold' || to === 'stop' || to === 'finish') return { state: patched, lead: to };
  return { state: enter(patched, to), lead: null };
}

function enter(state: ProcedureState, phase: PhaseId): ProcedureState {
  return { ...state, phase, elapsedS: 0, darkLookS: darkLookAtStart(phase) };
}

function answerEvent(id: PhaseId, { kind }: Phase, answer: Answer | null): UnstampedEvent[] {
  const taken = kind === 'question' ? answer !== null : kind === 'confirm' && answer === 'yes';
  return taken && answer !== null ? [{ kind: 'answer', phase: id, answer }] : [];
}
