/**
 * All alarms of the unit, in order of rank: of alarms with the same action and priority the first
 * is shown first. A new alarm is a row in the group to which it belongs and a row in
 * tests/safety/alarm-cases.ts.
 */
import type { AlarmId } from '../core/alarm-ids.ts';
import type { AlarmRow } from './alarm-row.ts';
import { BOARD_ROWS } from './alarms-board.ts';
import { BUTTON_ROWS } from './alarms-buttons.ts';
import { CURE_ROWS } from './alarms-cure.ts';
import { HEAT_AND_DAYLIGHT_ROWS } from './alarms-heat-light.ts';
import { PRESSURE_ROWS } from './alarms-pressure.ts';
import { SWITCH_ROWS } from './alarms-switches.ts';
import { TEMPERATURE_ROWS } from './alarms-temperature.ts';
import { UNIT_ROWS } from './alarms-unit.ts';

/**
 * Gives every row all fields in the same order: the table is walked at each tick, and engines are
 * slow on mixed shapes.
 */
const alike = (row: AlarmRow): AlarmRow => ({
  id: row.id,
  title: row.title,
  priority: row.priority,
  action: row.action,
  latching: row.latching,
  quantity: row.quantity,
  trips: row.trips,
  limit: row.limit,
  deadband: row.deadband,
  delayS: row.delayS,
  armed: row.armed,
  seen: row.seen,
  limitSI: row.limitSI,
  expected: row.expected,
  seenText: row.seenText,
  remedy: row.remedy,
});

export const ALARM_TABLE: readonly AlarmRow[] = [
  ...SWITCH_ROWS,
  ...PRESSURE_ROWS,
  ...CURE_ROWS,
  ...HEAT_AND_DAYLIGHT_ROWS,
  ...TEMPERATURE_ROWS,
  ...UNIT_ROWS,
  ...BUTTON_ROWS,
  ...BOARD_ROWS,
].map(alike);

/** Where an alarm stands in the table, and so in the settings and records that follow its order. */
export function placeOfAlarm(alarm: AlarmId): number {
  const place = ALARM_TABLE.findIndex(({ id }) => id === alarm);
  if (place < 0) throw new Error(`no row for the alarm ${alarm}`);
  return place;
}
