/**
 * One line of the unit's needs: the item, its state, the words, since when, and what to do. It also
 * decides which items may be overridden for one repair, with a reason and a name: an expired
 * calibration and a lamp below its limit may not.
 */
import type { DueState } from './interval.ts';

export const CARE_ITEMS = {
  'calibration-pressure': { label: 'pressure calibration', mayOverride: false },
  'calibration-irradiance': { label: 'irradiance calibration', mayOverride: false },
  'calibration-temperature': { label: 'temperature calibration', mayOverride: false },
  'lamp-output': { label: 'lamp output', mayOverride: false },
  'lamp-hours': { label: 'lamp hours', mayOverride: true },
  'lamp-window': { label: 'lamp window', mayOverride: true },
  'o-ring': { label: 'O-ring', mayOverride: true },
  'film-roll': { label: 'cover films', mayOverride: true },
  health: { label: 'seal and pump test', mayOverride: true },
  interlocks: { label: 'stop and pressure switch', mayOverride: false },
  cleaning: { label: 'cleaning', mayOverride: true },
} as const satisfies Record<string, { label: string; mayOverride: boolean }>;
export type CareItem = keyof typeof CARE_ITEMS;
export const CARE_ITEM_NAMES = Object.keys(CARE_ITEMS) as readonly CareItem[];

export interface DueItem {
  readonly item: CareItem;
  readonly state: DueState;
  /** The state in a short line. */
  readonly words: string;
  /** The day from which the item counts: when it was last done; null where no entry says. */
  readonly since: string | null;
  /** The day or count at which it falls due, where one can be named. */
  readonly due: string | null;
  /** What to do about it; empty while the item is in order. */
  readonly whatToDo: string;
}
