import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PhaseId } from '../../../src/core/phases.ts';
import { PROCEDURE_START, type ProcedureState } from '../../../src/procedure/phase.ts';
import { type ProcedureStep, stepProcedure } from '../../../src/procedure/repair/repair-phases.ts';
import { DEFAULT_PROFILE } from '../../configs.ts';
import { ATMOSPHERE_PA } from '../../frames.ts';
import { CONTEXT } from './phase-context.ts';

/** A profile that works glass from 12 to 40 C. */
const PROFILE = { ...DEFAULT_PROFILE, glass: { lowestK: 285.15, highestK: 313.15 } };

const at = (phase: PhaseId, change: Partial<ProcedureState> = {}): ProcedureState => ({
  ...PROCEDURE_START,
  atmospherePa: ATMOSPHERE_PA,
  phase,
  ...change,
});

const answered = (phase: PhaseId, glassK: number | null): ProcedureState =>
  stepProcedure(at(phase), { ...CONTEXT, profile: PROFILE, glassK, answer: 'yes' }).state;

/** Ticks at one temperature of the glass. */
function waitAt(from: ProcedureState, glassK: number | null, seconds: number): ProcedureStep {
  let step: ProcedureStep = { state: from, lead: null, events: [] };
  for (let n = 0; n < Math.round(seconds / CONTEXT.dtS) && step.state.phase === from.phase; n++) {
    step = stepProcedure(step.state, { ...CONTEXT, profile: PROFILE, glassK });
  }
  return step;
}

describe('glass outside the range of the profile', () => {
  test.each([
    ['too cold', 284.9],
    ['too hot', 313.4],
    ['without a reading', null],
  ])(
    '%s is led to the gate, before the pit is cleaned and again after it was dried',
    (_, glassK) => {
      expect(answered('inspect', glassK)).toMatchObject({
        phase: 'glass-gate',
        goesOnAt: 'clean-pit',
      });
      expect(answered('dry-pit', glassK)).toMatchObject({
        phase: 'glass-gate',
        goesOnAt: 'set-bridge',
      });
    },
  );

  test('waits there however long, and nothing is pumped or lit', () => {
    const there = answered('inspect', 276.15);
    expect(waitAt(there, 276.15, 3600).state.phase).toBe('glass-gate');
    expect(waitAt(there, null, 3600).state.phase).toBe('glass-gate');
  });

  test('goes on by itself to where it was led from, once it has been well inside for 5 s', () => {
    const there = answered('dry-pit', 330);
    expect(waitAt(there, 312.6, 4.9).state.phase).toBe('glass-gate');
    const on = waitAt(there, 312.6, 5.1).state;
    expect(on).toMatchObject({ phase: 'set-bridge', goesOnAt: null });
  });

  test('at the very edge of the range is not well inside', () => {
    expect(waitAt(answered('inspect', 276.15), 285.3, 60).state.phase).toBe('glass-gate');
  });

  test('that leaves the range again begins its five seconds again', () => {
    const warm = waitAt(answered('inspect', 276.15), 290, 4.5).state;
    const cold = waitAt(warm, 276.15, 0.1).state;
    expect(waitAt(cold, 290, 4.5).state.phase).toBe('glass-gate');
    expect(waitAt(cold, 290, 5.1).state.phase).toBe('clean-pit');
  });
});

test('glass inside the range passes no gate', () => {
  fc.assert(
    fc.property(fc.double({ min: 285.15, max: 313.15, noNaN: true }), (glassK) => {
      expect(answered('inspect', glassK).phase).toBe('clean-pit');
      expect(answered('dry-pit', glassK).phase).toBe('set-bridge');
    }),
  );
});

test('a later attempt that begins at the bridge passes the gate as well', () => {
  const begin = (entryAt: PhaseId, glassK: number) =>
    stepProcedure(at('protect'), { ...CONTEXT, profile: PROFILE, glassK, entryAt, answer: 'yes' })
      .state.phase;
  expect(begin('set-bridge', 276.15)).toBe('glass-gate');
  expect(begin('set-bridge', 296.15)).toBe('set-bridge');
  // Open resin does not wait for it.
  expect(begin('fill-pit', 276.15)).toBe('fill-pit');
});
