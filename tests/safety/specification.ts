/**
 * What every alarm must be, written down a second time from the harm that it is there to prevent and
 * without a look at the alarm table. Whoever changes the table changes this too, and says why here.
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
