/**
 * What holds in a cure holds wherever the lamp burns: the rows of the specification on lamp, heat
 * sink and glass, put through the whole controller in the guided procedures that light it.
 */
import { describe, expect, test } from 'vitest';
import { lampBurns } from '../../src/core/frame.ts';
import { CURE_PHASES } from '../../src/core/phases.ts';
import { GUIDED_STEPS } from '../../src/procedure/guided/progress.ts';
import { actuatorsOf } from '../steered-unit.ts';
import { GUIDED_CASES } from './provocations-guided.ts';
import { prove } from './safety-proof.ts';
import { SPECIFICATION } from './specification.ts';

test('every guided step that may light the lamp stands for a cure', () => {
  const lit = Object.values(GUIDED_STEPS).filter(({ lamp }) => lamp);
  expect(lit.map(({ alarmPhase }) => CURE_PHASES.has(alarmPhase))).toEqual([true, true]);
});

describe('under the lamp of a UV calibration', () => {
  test.each(GUIDED_CASES)('$id', ({ id, limit, how }) => {
    const row = SPECIFICATION.find((one) => one.id === id);
    if (row === undefined) throw new Error(`${id} is not specified`);
    expect(lampBurns(actuatorsOf(how.start(0)))).toBe(true);
    prove({ ...row, limit: limit ?? row.limit }, how);
  });
});
