/**
 * Every alarm of the unit, in order of rank: of alarms with the same action and priority the first is
 * shown first. Adding one is a row in the group it belongs to and a row in
 * tests/safety/alarm-cases.ts.
 */
import type { AlarmRow } from './alarm-row.ts';
import { BOARD_ROWS } from './alarms-board.ts';
import { CURE_ROWS } from './alarms-cure.ts';
import { HEAT_AND_DAYLIGHT_ROWS } from './alarms-heat-light.ts';
import { PRESSURE_ROWS } from './alarms-pressure.ts';
import { SWITCH_ROWS } from './alarms-switches.ts';
import { UNIT_ROWS } from './alarms-unit.ts';

export const ALARM_TABLE: readonly AlarmRow[] = [
  ...SWITCH_ROWS,
  ...PRESSURE_ROWS,
  ...CURE_ROWS,
  ...HEAT_AND_DAYLIGHT_ROWS,
  ...UNIT_ROWS,
  ...BOARD_ROWS,
];
