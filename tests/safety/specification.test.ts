import { describe, expect, test } from 'vitest';
import { ALARM_TABLE } from '../../src/safety/alarm-table.ts';
import type { Provocation } from './provocation.ts';
import { BOARD_PROVOCATIONS } from './provocations-board.ts';
import { LIGHT_PROVOCATIONS } from './provocations-light.ts';
import { PRESSURE_PROVOCATIONS } from './provocations-pressure.ts';
import { howTighter, TIGHTER } from './provocations-profile.ts';
import { prove } from './safety-proof.ts';
import { SPECIFICATION } from './specification.ts';

const PROVOCATIONS: Readonly<Record<string, Provocation>> = {
  ...PRESSURE_PROVOCATIONS,
  ...LIGHT_PROVOCATIONS,
  ...BOARD_PROVOCATIONS,
};

test('the specification names the alarms of the table, every one and no other', () => {
  const named = SPECIFICATION.map(({ id }) => id).sort();
  expect(named).toEqual(ALARM_TABLE.map(({ id }) => id).sort());
  expect(new Set(named).size).toBe(named.length);
  expect(Object.keys(PROVOCATIONS).sort()).toEqual(named);
});

describe('through the whole controller', () => {
  test.each(SPECIFICATION)('$id', (row) => {
    const how = PROVOCATIONS[row.id];
    if (how === undefined) throw new Error(`${row.id} is not provoked`);
    prove(row, how);
  });
});

test('every limit that a profile or a leg may tighten is tried at such a limit', () => {
  const tightened = ALARM_TABLE.filter(({ limitSI }) => limitSI !== undefined);
  const tried = new Set(TIGHTER.map(({ id }) => id));
  expect([...tried].sort()).toEqual(tightened.map(({ id }) => id).sort());
});

describe('at a limit that is tighter than the unit’s own', () => {
  test.each(TIGHTER)('$id, by $by', (tighter) => {
    const row = SPECIFICATION.find(({ id }) => id === tighter.id);
    if (row === undefined) throw new Error(`${tighter.id} is not specified`);
    prove({ ...row, limit: tighter.limit }, howTighter(tighter));
  });
});
