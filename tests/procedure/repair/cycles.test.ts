import { describe, expect, test } from 'vitest';
import type { Answer } from '../../../src/core/events.ts';
import { CURE_PHASES, type PhaseId } from '../../../src/core/phases.ts';
import type { ProcedureState } from '../../../src/procedure/phase.ts';
import { PROCEDURE_START } from '../../../src/procedure/phase.ts';
import { afterSeal } from '../../../src/procedure/repair/cycles.ts';
import { PHASE_TABLE } from '../../../src/procedure/repair/phase-table.ts';
import {
  type ProcedureStep,
  resume,
  stepProcedure,
} from '../../../src/procedure/repair/repair-phases.ts';
import { DEFAULT_PROFILE } from '../../configs.ts';
import { ATMOSPHERE_PA } from '../../frames.ts';
import { CONTEXT } from './phase-context.ts';

const at = (phase: PhaseId, change: Partial<ProcedureState> = {}): ProcedureState => ({
  ...PROCEDURE_START,
  atmospherePa: ATMOSPHERE_PA,
  phase,
  cycle: 1,
  ...change,
});

const answer = (state: ProcedureState, given: Answer): ProcedureStep =>
  stepProcedure(state, { ...CONTEXT, answer: given });

const leadsTo = (step: ProcedureStep) => ({ phase: step.state.phase, cycle: step.state.cycle });

describe('still bubbling?', () => {
  test('NO lets the air in', () => {
    expect(leadsTo(answer(at('ask-bubbles', { vacuumHeldS: 60 }), 'no')).phase).toBe('release');
  });

  test('YES keeps the vacuum by the profile’s extension, never past its longest dwell', () => {
    const extended = answer(at('ask-bubbles', { vacuumHeldS: 62 }), 'yes').state;
    expect(extended).toMatchObject({ phase: 'vacuum-dwell', dwellForS: 30 });
    const last = answer(at('ask-bubbles', { vacuumHeldS: 100 }), 'yes').state;
    expect(last.dwellForS).toBeCloseTo(20, 1);
    const over = answer(at('ask-bubbles', { vacuumHeldS: 121 }), 'yes').state;
    expect(over.phase).toBe('bubbles-stay');
  });

  test('the time of the question counts as time under vacuum', () => {
    const asked = stepProcedure(at('ask-bubbles', { vacuumHeldS: 60 }), CONTEXT).state;
    expect(asked.vacuumHeldS).toBeCloseTo(60.05, 9);
  });
});

describe('clear?', () => {
  const { planned, extra } = DEFAULT_PROFILE.cycles;

  test('YES takes the injector off, and then goes on to the pit', () => {
    expect(leadsTo(answer(at('ask-clear'), 'yes')).phase).toBe('injector-off');
    expect(leadsTo(answer(at('injector-off'), 'yes')).phase).toBe('fill-pit');
  });

  test('NO begins the next planned cycle, then offers further ones, then none', () => {
    expect(leadsTo(answer(at('ask-clear', { cycle: planned - 1 }), 'no')).phase).toBe('ask-resin');
    expect(leadsTo(answer(at('ask-resin', { cycle: planned - 1 }), 'yes'))).toEqual({
      phase: 'evacuate',
      cycle: planned,
    });
    expect(leadsTo(answer(at('ask-clear', { cycle: planned }), 'no')).phase).toBe('offer-remedy');
    const charged = { cycle: planned, chargedAtCycle: planned - 1 };
    expect(leadsTo(answer(at('offer-cycle', charged), 'yes')).phase).toBe('ask-resin');
    expect(leadsTo(answer(at('ask-resin', charged), 'yes'))).toEqual({
      phase: 'evacuate',
      cycle: planned + 1,
    });
    const most = at('ask-clear', { cycle: planned + extra });
    expect(leadsTo(answer(most, 'no')).phase).toBe('accept-mark');
  });

  test('a declined cycle asks whether to cure a mark in; NO asks for a cycle or the end', () => {
    const asked = answer(at('offer-cycle'), 'no').state;
    expect(asked.phase).toBe('accept-mark');
    const other = answer(asked, 'no').state;
    expect(other.phase).toBe('cycle-or-end');
    expect(answer(other, 'no').lead).toBe('stop');
  });

  test('a person may run a cycle past the profile’s last one, and it is counted', () => {
    const last = { cycle: planned + extra, chargedAtCycle: planned + extra };
    const looked = answer(at('cycle-or-end', last), 'yes').state;
    expect(looked.phase).toBe('ask-resin');
    expect(leadsTo(answer(looked, 'yes'))).toEqual({
      phase: 'evacuate',
      cycle: planned + extra + 1,
    });
  });

  test('a mark that was accepted stays one, however the final look is answered', () => {
    const accepted = answer(at('accept-mark'), 'yes').state;
    expect(accepted).toMatchObject({ phase: 'injector-off', outcome: 'mark-remains' });
    const looked = answer({ ...accepted, phase: 'final-look' }, 'yes').state;
    expect(looked).toMatchObject({ phase: 'result', outcome: 'mark-remains' });
    expect(answer(at('final-look'), 'yes').state.outcome).toBe('clear');
    expect(answer(at('final-look'), 'no').state.outcome).toBe('mark-remains');
  });
});

describe('fresh resin in the injector', () => {
  const rechargesOf = ({ events }: ProcedureStep) =>
    events.filter(({ kind }) => kind === 'recharge');
  /** After a second cycle that did not clear the break. */
  const second = { cycle: 2, resinIn: true };

  test('is asked for by whoever sees a dry injector, and is on record before the next cycle', () => {
    const asked = answer(at('ask-resin', second), 'no');
    expect(asked.state).toMatchObject({ phase: 'recharge', rechargeWhy: 'injector-dry' });
    expect(rechargesOf(asked)).toEqual([]);
    const charged = answer(asked.state, 'yes');
    expect(leadsTo(charged)).toEqual({ phase: 'evacuate', cycle: 3 });
    expect(rechargesOf(charged)).toEqual([{ kind: 'recharge', cycle: 3, why: 'injector-dry' }]);
  });

  test('is due after as many cycles as the profile allows, counted from the last charge', () => {
    // The demo profile's: two.
    const due = answer(at('offer-cycle', { ...second, chargedAtCycle: 0 }), 'yes').state;
    expect(due).toMatchObject({ phase: 'recharge', rechargeWhy: 'after-cycles' });
    const fresh = answer(at('offer-cycle', { ...second, chargedAtCycle: 1 }), 'yes').state;
    expect(fresh.phase).toBe('ask-resin');
    const later = answer(due, 'yes').state;
    expect(later).toMatchObject({ phase: 'evacuate', cycle: 3, chargedAtCycle: 2 });
  });

  test('is counted from the first charge of an attempt that goes on after some cycles', () => {
    const charged = answer(at('charge-injector', { cycle: 2 }), 'yes').state;
    expect(charged).toMatchObject({ resinIn: true, chargedAtCycle: 2 });
  });

  test('is vented, and waits for a person', () => {
    expect(PHASE_TABLE.recharge.air(at('recharge'), DEFAULT_PROFILE)).toEqual({ air: 'vented' });
    expect(answer(at('recharge'), 'no').state.phase).toBe('recharge');
  });
});

describe('a cycle that went back to the seal', () => {
  const bubbling = at('bubbles-stay', { cycle: 2, cycleOver: false, resinIn: true });
  const reseated = answer(answer(bubbling, 'no').state, 'yes').state;

  test('lifts the foot, which leaves resin on the glass: fresh resin comes first', () => {
    expect(reseated).toMatchObject({ phase: 'seal-pull', reseated: true });
    expect(afterSeal(reseated, CONTEXT)).toMatchObject({
      to: 'recharge',
      patch: { rechargeWhy: 'reseated' },
    });
  });

  test('is run again under its own number: no cycle is counted that pressed nothing in', () => {
    const { patch } = afterSeal(reseated, CONTEXT);
    const charged = answer({ ...reseated, ...patch, phase: 'recharge' }, 'yes');
    expect(leadsTo(charged)).toEqual({ phase: 'evacuate', cycle: 2 });
    expect(charged.state.reseated).toBe(false);
  });

  test('is charged for the first time where none was in when the foot was lifted', () => {
    expect(afterSeal({ ...reseated, resinIn: false }, CONTEXT).to).toBe('charge-injector');
  });
});

describe('the fill is judged without pressure', () => {
  const vent = (elapsedS: number, gaugePa: number) =>
    stepProcedure(at('vent', { elapsedS }), { ...CONTEXT, pressurePa: ATMOSPHERE_PA + gaugePa });
  const { restS } = DEFAULT_PROFILE.pressure;

  test('only once vented, and after the rest in which hidden air shows', () => {
    expect(vent(restS, 0).state.phase).toBe('ask-clear');
    expect(vent(restS - 1, 0).state.phase).toBe('vent');
    expect(vent(restS + 60, 3_000).state.phase).toBe('vent');
  });
});

describe('phases', () => {
  test('a person is waited for at every step of hand work and every question, with a deadline', () => {
    for (const [id, phase] of Object.entries(PHASE_TABLE)) {
      if (phase.kind === 'automatic') expect(phase.answerWithinS, id).toBeNull();
      else expect(phase.answerWithinS, id).toBeGreaterThan(0);
    }
  });

  test('every wait for the world has an end or a deadline', () => {
    for (const [id, phase] of Object.entries(PHASE_TABLE)) {
      // The self-test and the cures have alarms of their own: self-test, lamp-weak.
      const watched = id === 'self-test' || CURE_PHASES.has(id as PhaseId);
      // The pane follows the room, which only a person can change; all outputs are at rest.
      if (id === 'glass-gate') continue;
      if (phase.kind !== 'automatic' || watched) continue;
      const deadline = phase.reachWithinS(DEFAULT_PROFILE);
      const ends = phase.lastsS?.(at(id as PhaseId), DEFAULT_PROFILE);
      expect(deadline ?? ends, id).toEqual(expect.any(Number));
    }
  });

  test('none passes without an answer where a person must look or act', () => {
    for (const [id, phase] of Object.entries(PHASE_TABLE)) {
      if (phase.kind === 'automatic') continue;
      const waited = at(id as PhaseId, { elapsedS: 1e6, vacuumHeldS: 1e6 });
      expect(stepProcedure(waited, CONTEXT).state.phase, id).toBe(id);
    }
  });

  test('only the cures have the lamp, and they are vented', () => {
    const lit = Object.entries(PHASE_TABLE).filter(([id, { lamp }]) =>
      lamp(at(id as PhaseId, { darkLookS: null })),
    );
    expect(lit.map(([id]) => id)).toEqual([...CURE_PHASES]);
    for (const id of CURE_PHASES) {
      expect(PHASE_TABLE[id].air(at(id), DEFAULT_PROFILE)).toEqual({ air: 'vented' });
    }
  });

  test('a dwell that was held starts anew from its approach; other phases where they were', () => {
    expect(resume(at('vacuum-dwell', { elapsedS: 40 }))).toMatchObject({
      phase: 'evacuate',
      elapsedS: 0,
    });
    expect(resume(at('pressure-dwell')).phase).toBe('pressurise');
    expect(resume(at('seal-watch')).phase).toBe('seal-pull');
    expect(resume(at('cure')).phase).toBe('cure');
    expect(resume(at('polish')).phase).toBe('polish');
  });
});
