/**
 * One line of what the unit needs: which item, how it stands, in words, since when, and what to do.
 * Which items may be overridden for one repair, with a reason and a name, is decided here: an expired
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
  cleaning: { label: 'cleaning', mayOverride: true },
} as const satisfies Record<string, { label: string; mayOverride: boolean }>;
export type CareItem = keyof typeof CARE_ITEMS;
export const CARE_ITEM_NAMES = Object.keys(CARE_ITEMS) as readonly CareItem[];

export interface DueItem {
  readonly item: CareItem;
  readonly state: DueState;
  /** How it stands, a short line. */
  readonly words: string;
  /** The day from which the item counts: when it was last done; null where nobody has logged it. */
  readonly since: string | null;
  /** The day or the count at which it falls due, where one can be named. */
  readonly due: string | null;
  /** What a person does about it; empty while all is in order. */
  readonly whatToDo: string;
}
