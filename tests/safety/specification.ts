/**
 * The required properties of every alarm, written down a second time from the harm that it prevents
 * and without reference to the alarm table. A change to the table also needs a change here, with
 * the reason.
 */
import type { SafetyRow } from './safety-row.ts';
import { BOARD_SPECIFICATION } from './specification-board.ts';
import { LIGHT_SPECIFICATION } from './specification-light.ts';
import { PRESSURE_SPECIFICATION } from './specification-pressure.ts';

export const SPECIFICATION: readonly SafetyRow[] = [
  ...PRESSURE_SPECIFICATION,
  ...LIGHT_SPECIFICATION,
  ...BOARD_SPECIFICATION,
];
