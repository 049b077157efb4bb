import { describe, expect, test } from 'vitest';
import { ALARM_IDS } from '../../src/core/alarm-ids.ts';
import { SAFE } from '../../src/core/frame.ts';
import { checkSettings } from '../../src/core/settings.ts';
import { nextBatchState } from '../../src/procedure/batch.ts';
import type { AlarmContext } from '../../src/safety/alarm-row.ts';
import { alarmSettingsSchema } from '../../src/safety/alarm-settings.ts';
import { ALARM_TABLE } from '../../src/safety/alarm-table.ts';
import { ALL_QUIET, type AlarmRecords, forcing, stepAlarms } from '../../src/safety/alarms.ts';
import { guard } from '../../src/safety/guard.ts';
import { SCALES } from '../../src/safety/scales.ts';
import { ALARM_CASES, type AlarmCase } from './alarm-cases.ts';
import { LIGHT_CASES } from './alarm-cases-light.ts';
import { QUIET_CONTEXT } from './quiet-context.ts';

const CASES = [...ALARM_CASES, ...LIGHT_CASES];
const DEFAULTS = alarmSettingsSchema.parse({});
const TICK_S = 0.05;

function rowOf(id: string) {
  const index = ALARM_TABLE.findIndex((row) => row.id === id);
  const row = ALARM_TABLE[index];
  if (row === undefined) throw new Error(`no alarm ${id}`);
  return { row, index };
}

/** Lets the alarms look at one unchanging situation from `fromS` for `forS`. */
function dwell(
  records: AlarmRecords,
  context: AlarmContext,
  fromS: number,
  forS: number,
  handled: { acknowledged?: string; reset?: boolean } = {},
): AlarmRecords {
  const ticks = Math.max(1, Math.round(forS / TICK_S));
  let now = records;
  for (let tick = 0; tick < ticks; tick++) {
    const reading = { ...context.reading, timeS: fromS + tick * TICK_S };
    now = stepAlarms(
      now,
      DEFAULTS,
      { ...context, reading },
      { acknowledged: handled.acknowledged ?? null, reset: handled.reset ?? false },
      () => true,
    ).records;
  }
  return now;
}

const armedContext = ({ armed }: AlarmCase): AlarmContext => ({ ...QUIET_CONTEXT, ...armed });
const stateOf = (records: AlarmRecords, id: string) => records[rowOf(id).index]?.state;
const delayOf = (id: string): number => DEFAULTS[rowOf(id).index]?.delayS ?? Number.NaN;

test('every alarm of the table has its case', () => {
  expect(CASES.map(({ id }) => id).sort()).toEqual(ALARM_TABLE.map(({ id }) => id).sort());
});

test('every alarm that has a name has one row, and no row is without a name', () => {
  expect(ALARM_TABLE.map(({ id }) => id).toSorted()).toEqual(ALARM_IDS.toSorted());
});

describe.each(CASES)('alarm $id', (alarmCase) => {
  const { id, at, justUnder, justOver } = alarmCase;
  const { row } = rowOf(id);
  const healthy = at(armedContext(alarmCase), justUnder);
  const faulty = at(armedContext(alarmCase), justOver);
  const longS = delayOf(id) + 1;

  test('is silent just under its limit, however long', () => {
    expect(stateOf(dwell(ALL_QUIET, healthy, 0, longS * 3), id)).toBe('normal');
  });

  test('rises just over its limit after its delay and not before, alone', () => {
    const delayS = delayOf(id);
    if (delayS > TICK_S) {
      const early = dwell(ALL_QUIET, faulty, 0, delayS - TICK_S);
      expect(stateOf(early, id)).toBe('normal');
    }
    const raised = dwell(ALL_QUIET, faulty, 0, delayS + 2 * TICK_S);
    expect(stateOf(raised, id)).toBe('unacknowledged');
    const others = ALARM_TABLE.filter((other) => stateOf(raised, other.id) !== 'normal');
    expect(others.map((other) => other.id)).toEqual([id]);
  });

  test('makes the outputs safe unless it only warns, and says what was expected and seen', () => {
    const raised = dwell(ALL_QUIET, faulty, 0, longS);
    const stops = forcing(raised, 'hold') !== null || forcing(raised, 'abort') !== null;
    expect(stops).toBe(row.action !== 'warn');
    const { phase, reading } = QUIET_CONTEXT;
    const wanted = { ...SAFE, pumpRatio: 1, ventOpen: false };
    const out = guard(wanted, {
      batch: 'running',
      phase,
      reading,
      alarmStops: stops,
      shieldShown: true,
    });
    expect(out).toEqual(row.action === 'warn' ? wanted : SAFE);
    if (row.action !== 'warn') expect(nextBatchState('running', row.action)).toMatch(/ing$/);
    expect(raised[rowOf(id).index]?.finding?.cause).toMatch(/^Expected .+, seen .+/);
  });

  test(row.latching ? 'stays in force until reset' : 'clears by itself once acknowledged', () => {
    const raised = dwell(ALL_QUIET, faulty, 0, longS);
    const gone = dwell(raised, healthyAgain(alarmCase), longS, 0.1);
    expect(stateOf(gone, id)).toBe('returned-unacknowledged');
    const seen = dwell(gone, healthyAgain(alarmCase), longS + 0.1, TICK_S, { acknowledged: id });
    expect(stateOf(seen, id)).toBe(row.latching ? 'latched' : 'normal');
    expect(forcing(seen, row.action) !== null).toBe(row.latching);
    const reset = dwell(seen, healthyAgain(alarmCase), longS + 0.2, TICK_S, { reset: true });
    expect(stateOf(reset, id)).toBe('normal');
  });

  if (row.deadband.default > 0)
    test('stands while the value is inside its deadband', () => {
      const raised = dwell(ALL_QUIET, faulty, 0, longS);
      const back = dwell(raised, healthy, longS, 1);
      expect(stateOf(back, id)).toBe('unacknowledged');
    });

  test('acknowledging silences and changes nothing else', () => {
    const raised = dwell(ALL_QUIET, faulty, 0, longS);
    const seen = dwell(raised, faulty, longS, TICK_S, { acknowledged: id });
    expect(stateOf(seen, id)).toBe('acknowledged');
    expect(forcing(seen, row.action)?.row.id).toBe(id);
  });

  test.each(['limit', 'deadband', 'delayS'] as const)('refuses a nonsense %s', (setting) => {
    const { min, max } = row[setting];
    for (const value of [min - 1, max + 1, Number.NaN, 'much', null]) {
      const checked = checkSettings(alarmSettingsSchema, { [id]: { [setting]: value } }, 'unit');
      expect(checked.ok, String(value)).toBe(false);
      if (!checked.ok) {
        expect(checked.problems[0]?.path).toBe(`${id}.${setting}`);
        expect(checked.problems[0]?.accepted).toContain(`${min} to ${max}`);
      }
    }
  });
});

/** The cause taken away past the deadband, the rest of the situation unchanged. */
function healthyAgain(alarmCase: AlarmCase): AlarmContext {
  const { row } = rowOf(alarmCase.id);
  const deadbandSI = row.deadband.default * SCALES[row.quantity].siPerUnit;
  const away = row.trips === 'above' ? -deadbandSI : deadbandSI;
  return alarmCase.at(armedContext(alarmCase), alarmCase.justUnder + away);
}
