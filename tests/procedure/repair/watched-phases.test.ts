import { expect, test } from 'vitest';
import { CLOSED_PHASES, CURE_PHASES, PHASE_IDS } from '../../../src/core/phases.ts';
import { PROCEDURE_START } from '../../../src/procedure/phase.ts';
import { PHASE_TABLE } from '../../../src/procedure/repair/phase-table.ts';
import { DEFAULT_PROFILE } from '../../configs.ts';
import { ATMOSPHERE_PA } from '../../frames.ts';

const STATE = { ...PROCEDURE_START, atmospherePa: ATMOSPHERE_PA };

// What a phase does stands in one table, and what is watched in it in another.
test('the chamber is watched in every phase that does not leave it open, and in no other', () => {
  const closed = PHASE_IDS.filter(
    (phase) => PHASE_TABLE[phase].air(STATE, DEFAULT_PROFILE).air !== 'vented',
  );
  expect(closed).toContain('pressure-dwell');
  expect(closed).toEqual([...CLOSED_PHASES]);
});

test('the lamp is watched in every phase that may light it, and in no other', () => {
  const lit = PHASE_IDS.filter((phase) => PHASE_TABLE[phase].lamp(STATE));
  expect(lit).toEqual([...CURE_PHASES]);
});
