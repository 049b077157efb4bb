import { describe, expect, test } from 'vitest';
import { PROCEDURE_START, type ProcedureState } from '../../../../src/procedure/phase.ts';
import { cureAskedIn, isFoundSoft } from '../../../../src/procedure/repair/cure/further-cure.ts';
import { stepProcedure } from '../../../../src/procedure/repair/repair-phases.ts';
import { DEFAULT_CONFIG } from '../../../configs.ts';
import { ATMOSPHERE_PA } from '../../../frames.ts';
import { CONTEXT } from '../phase-context.ts';

const scraped = (furtherCures: number): ProcedureState => ({
  ...PROCEDURE_START,
  atmospherePa: ATMOSPHERE_PA,
  phase: 'scrape',
  cycle: 2,
  furtherCures,
});

const answered = (furtherCures: number, answer: 'yes' | 'no') =>
  stepProcedure(scraped(furtherCures), { ...CONTEXT, answer });

describe('resin that is scraped', () => {
  test('and hard goes on to the polish', () => {
    expect(answered(0, 'yes').state).toMatchObject({ phase: 'polish', furtherCures: 0 });
  });

  test('and soft goes back to film and lamp, and the record counts it', () => {
    const { state, events } = answered(0, 'no');
    expect(state).toMatchObject({ phase: 'cover-film', furtherCures: 1 });
    expect(events).toContainEqual(
      expect.objectContaining({ kind: 'measured', name: 'furtherCures', value: 1 }),
    );
    expect(events).toContainEqual({ kind: 'answer', phase: 'scrape', answer: 'no' });
    expect(answered(1, 'no').state).toMatchObject({ phase: 'cover-film', furtherCures: 2 });
  });

  test('and soft for the third time is not lit again: the job can only be ended or looked at again', () => {
    const { state, lead } = answered(2, 'no');
    expect(lead).toBe('stop');
    expect(state).toMatchObject({ phase: 'scrape', furtherCures: 2 });
    expect(answered(2, 'yes').state.phase).toBe('polish');
  });
});

test('resin counts as soft only until it is found hard', () => {
  expect(isFoundSoft(scraped(0))).toBe(false);
  expect(isFoundSoft(scraped(1))).toBe(true);
  expect(isFoundSoft(answered(2, 'no').state)).toBe(true);
  expect(isFoundSoft(answered(1, 'yes').state)).toBe(false);
});

test('each further cure asks for half of the dose and of the times on top', () => {
  const asked = (furtherCures: number) =>
    cureAskedIn({ phase: 'cure', furtherCures }, DEFAULT_CONFIG);
  const first = asked(0);
  for (const [given, times] of [
    [1, 1.5],
    [2, 2],
  ] as const) {
    expect(asked(given).targetJPerM2).toBeCloseTo(times * first.targetJPerM2, 6);
    expect(asked(given).leastS).toBeCloseTo(times * first.leastS, 9);
    expect(asked(given).longestS).toBeCloseTo(times * first.longestS, 9);
  }
});
