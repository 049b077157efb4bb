/** The injector is moved along a crack, and the lamp after it. */
import { describe, expect, test } from 'vitest';
import type { Answer } from '../../../src/core/events.ts';
import type { PhaseId } from '../../../src/core/phases.ts';
import { PROCEDURE_START, type ProcedureState } from '../../../src/procedure/phase.ts';
import type { WorkPlan } from '../../../src/procedure/places.ts';
import { afterSeal } from '../../../src/procedure/repair/cycles.ts';
import { cureOnlyEntry, enteredWith, goOnEntry } from '../../../src/procedure/repair/reentry.ts';
import { stepProcedure } from '../../../src/procedure/repair/repair-phases.ts';
import { DEFAULT_PROFILE } from '../../configs.ts';
import { CONTEXT } from './phase-context.ts';

const plan: WorkPlan = {
  positions: { count: 3, apartM: 0.0125 },
  fields: { count: 2, apartM: 0.018 },
  endStop: false,
  fieldRadiusM: 0.0149,
  coversM: 0.045,
};
const AT_CRACK = { ...CONTEXT, plan };
const at = (phase: PhaseId, change: Partial<ProcedureState> = {}): ProcedureState => ({
  ...PROCEDURE_START,
  phase,
  cycle: 2,
  resinIn: true,
  resinInBreak: true,
  ...change,
});
const answer = (state: ProcedureState, given: Answer = 'yes') =>
  stepProcedure(state, { ...AT_CRACK, answer: given });

describe('a part that is judged clear', () => {
  test('has the injector emptied and moved on to the next', () => {
    expect(answer(at('ask-clear')).state).toMatchObject({
      phase: 'move-injector',
      position: 2,
      cyclesBefore: 2,
      resinIn: false,
      resinInBreak: true,
    });
  });

  test('is followed by a dry test of the seal and fresh resin, once a person has moved it', () => {
    const moved = answer(at('move-injector', { position: 2, resinIn: false }));
    expect(moved.state.phase).toBe('seal-pull');
    expect(moved.events).toContainEqual({ kind: 'moved', what: 'injector', to: 2, of: 3 });
    expect(afterSeal(moved.state, AT_CRACK).to).toBe('charge-injector');
  });

  test('is the last one at the last position', () => {
    expect(answer(at('ask-clear', { position: 3 })).state.phase).toBe('injector-off');
  });

  test('goes on too where a mark was accepted, which remains one', () => {
    expect(answer(at('accept-mark')).state).toMatchObject({
      phase: 'move-injector',
      outcome: 'mark-remains',
    });
  });
});

describe('at a further position', () => {
  const second = { position: 2, cycle: 3, cyclesBefore: 2, chargedAtCycle: 2, cycleOver: true };
  const { planned, extra } = DEFAULT_PROFILE.cycles;

  test('the planned cycles and the offered ones begin anew', () => {
    const first = answer(at('ask-clear', second), 'no').state;
    expect(first.phase).toBe('ask-resin');
    const all = { ...second, cycle: 2 + planned + extra };
    expect(answer(at('ask-clear', all), 'no').state.phase).toBe('accept-mark');
  });

  test('what was tried before may help again', () => {
    const tried = at('ask-clear', { tried: ['warmth'], passedOver: ['longer-vacuum'] });
    expect(answer(tried).state).toMatchObject({ tried: [], passedOver: [], remedy: null });
  });

  test('another attempt goes on there, with a cycle that was begun there begun again', () => {
    const entry = goOnEntry(at('pressurise', { ...second, cycle: 3 }));
    expect(entry).toMatchObject({ at: 'set-bridge', position: 2, cycle: 2, cyclesBefore: 2 });
    expect(entry === null ? null : enteredWith(entry)).toMatchObject({ position: 2 });
  });

  test('another attempt begins no cycle of the position before again', () => {
    const moved = at('seal-watch', { ...second, cycle: 2 });
    expect(goOnEntry(moved)).toMatchObject({ position: 2, cycle: 2, cyclesBefore: 2 });
    expect(cureOnlyEntry(moved)).toMatchObject({ at: 'injector-off', position: 2 });
  });
});

describe('a field that has its dose', () => {
  const dark = { darkLookS: 1 };
  const cured = (state: ProcedureState) =>
    stepProcedure(state, {
      ...AT_CRACK,
      cure: { ...CONTEXT.cure, done: true, lampOnS: 300 },
      light: { dark: true, judged: true },
    });

  test('has the lamp moved on to the next, whose shield is closed anew', () => {
    const next = cured(at('cure', dark));
    expect(next.state).toMatchObject({ phase: 'move-lamp', field: 2 });
    const moved = answer(next.state);
    expect(moved.state.phase).toBe('place-lamp');
    expect(moved.events).toContainEqual({ kind: 'moved', what: 'lamp', to: 2, of: 2 });
  });

  test('that is found soft is cured once more, with all others, from the first on', () => {
    const soft = answer(at('scrape', { field: 2 }), 'no');
    expect(soft.state).toMatchObject({ phase: 'cover-film', field: 1, furtherCures: 1 });
    expect(soft.events).toContainEqual({ kind: 'moved', what: 'lamp', to: 1, of: 2 });
  });

  test('is the last one in the last field', () => {
    expect(cured(at('cure', { ...dark, field: 2 })).state.phase).toBe('scrape');
  });
});

test('the end of a crack is stopped between the look and the cleaning, where the plan says so', () => {
  const asked = stepProcedure(at('inspect'), {
    ...CONTEXT,
    plan: { ...plan, endStop: true },
    answer: 'yes',
  }).state;
  expect(asked.phase).toBe('end-stop');
  expect(answer(asked).state.phase).toBe('clean-pit');
  expect(answer(at('inspect')).state.phase).toBe('clean-pit');
});
