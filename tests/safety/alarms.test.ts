/** Of several alarms, the one that a person sees first, and the figures of a unit file. */
import { describe, expect, test } from 'vitest';
import type { AlarmId } from '../../src/core/alarm-ids.ts';
import { alarmSettingsSchema } from '../../src/safety/alarm-settings.ts';
import type { AlarmRecord } from '../../src/safety/alarm-states.ts';
import { ALARM_TABLE, placeOfAlarm } from '../../src/safety/alarm-table.ts';
import { ALL_QUIET, type AlarmRecords, forcing, foremost } from '../../src/safety/alarms.ts';

const QUIET = ALL_QUIET[0] as AlarmRecord;
const raised = (...ids: readonly AlarmId[]): AlarmRecords =>
  ALL_QUIET.map((quiet, place) =>
    ids.some((id) => placeOfAlarm(id) === place)
      ? ({ ...quiet, active: true, state: 'unacknowledged' } as AlarmRecord)
      : quiet,
  );
const first = (...ids: readonly AlarmId[]) => foremost(raised(...ids))?.row.id ?? null;

describe('of several alarms', () => {
  test('none is seen where none stands', () => {
    expect(foremost(ALL_QUIET)).toBeNull();
    expect(foremost(ALL_QUIET.map(() => ({ ...QUIET })))).toBeNull();
  });

  // Abort before hold before warn, whatever their places in the table.
  test.each<[AlarmId, AlarmId]>([
    ['emergency-stop', 'leak-in-dwell'],
    ['emergency-stop', 'button-unclear'],
    ['over-pressure', 'vacuum-under-reach'],
    ['leak-in-dwell', 'button-unclear'],
    ['shield-open', 'daylight-near'],
    ['link-lost', 'heat-near-limit'],
  ])('%s is seen before %s, whichever came first', (before, after) => {
    expect(first(before, after)).toBe(before);
    expect(first(after, before)).toBe(before);
    expect(first(after)).toBe(after);
  });

  test('the one of higher priority is seen first among those that do the same', () => {
    const holds = ALARM_TABLE.filter(({ action }) => action === 'hold');
    const [high, low] = [
      holds.findLast(({ priority }) => priority === 'high'),
      holds.find(({ priority }) => priority !== 'high'),
    ];
    if (high === undefined || low === undefined) throw new Error('no such rows');
    // The other one comes first in the table.
    expect(placeOfAlarm(low.id as AlarmId)).toBeLessThan(placeOfAlarm(high.id as AlarmId));
    expect(first(high.id as AlarmId, low.id as AlarmId)).toBe(high.id);
  });

  test('the upper row of the table is seen first among equals', () => {
    expect(first('glass-sensor', 'pressure-sensor')).toBe('pressure-sensor');
  });

  test('an acknowledged alarm is seen no more, one that went by itself still is', () => {
    const with2 = (state: AlarmRecord['state']) =>
      raised('leak-in-dwell').map((record, place) =>
        place === placeOfAlarm('leak-in-dwell') ? ({ ...record, state } as AlarmRecord) : record,
      );
    expect(foremost(with2('acknowledged'))).toBeNull();
    expect(foremost(with2('returned-unacknowledged'))?.row.id).toBe('leak-in-dwell');
  });

  test('only one that asks for it forces a hold or an end', () => {
    const both = raised('leak-in-dwell', 'button-unclear');
    expect(forcing(both, 'hold')?.row.id).toBe('leak-in-dwell');
    expect(forcing(both, 'abort')).toBeNull();
    expect(forcing(raised('emergency-stop'), 'abort')?.row.id).toBe('emergency-stop');
  });
});

describe('the alarms of a unit file', () => {
  const settingsOf = (id: AlarmId, given: object = {}) =>
    alarmSettingsSchema.parse({ [id]: given })[placeOfAlarm(id)];

  test('are read into SI units: a limit with its zero point, a deadband without', () => {
    // Degrees Celsius for a temperature, kelvins for a difference of one.
    expect(settingsOf('lamp-hot', { limit: 72, deadband: 6, delayS: 1 })).toEqual({
      limitSI: expect.closeTo(345.15, 9),
      deadbandSI: 6,
      delayS: 1,
    });
  });

  test('of pressures are read in pascals', () => {
    expect(settingsOf('over-pressure', { limit: 150, deadband: 4 })).toMatchObject({
      limitSI: 150_000,
      deadbandSI: 4_000,
    });
    expect(settingsOf('over-pressure')).toMatchObject({ limitSI: 180_000, deadbandSI: 5_000 });
  });

  test('take the figures of the table where the file states none', () => {
    const row = ALARM_TABLE[placeOfAlarm('lamp-hot')];
    expect(settingsOf('lamp-hot')).toEqual({
      limitSI: expect.closeTo((row?.limit.default ?? 0) + 273.15, 9),
      deadbandSI: row?.deadband.default,
      delayS: row?.delayS.default,
    });
  });
});
