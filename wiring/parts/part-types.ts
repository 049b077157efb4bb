/**
 * Every kind of part of the unit: what to buy, its rating, and the reason for the rating. The parts
 * list is printed from it. Values are engineering values for the demo unit unless `basis` says
 * otherwise. `circuit.ts` defines the connections, `pin-map.ts` the controller's pins.
 */
import { AIR_TYPES } from './air-types.ts';
import { DRIVE_TYPES } from './drive-types.ts';
import type { PartType } from './part-type.ts';
import { POWER_TYPES } from './power-types.ts';
import { SIGNAL_TYPES, SWITCH_TYPES } from './signal-types.ts';

export const PART_TYPES = {
  ...POWER_TYPES,
  ...DRIVE_TYPES,
  ...SWITCH_TYPES,
  ...SIGNAL_TYPES,
  ...AIR_TYPES,
} as const;
export type PartTypeName = keyof typeof PART_TYPES;

/** Widened, so that optional fields can be read from any type. */
export const partType = (name: PartTypeName): PartType => PART_TYPES[name];
