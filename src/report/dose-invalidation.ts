/**
 * Alarms that invalidate the dose, whatever was counted. Each shows that the clock or the light
 * sensor, from which every dose is computed, cannot be trusted. An alarm raised after the cure counts
 * too, because the fault may have been there all along.
 */
import type { AlarmId } from '../core/alarm-ids.ts';
import type { AlarmRow } from './alarms-raised.ts';

const INVALIDATING_ALARMS: readonly AlarmId[] = [
  'board-clock',
  'frames-stand-still',
  'light-too-bright',
  'light-not-dark',
  'light-lamp-off',
];

const INVALIDATING: ReadonlySet<string> = new Set(INVALIDATING_ALARMS);

/** The invalidating alarms that were raised, each once, in the order in which they came. */
export const invalidatingAlarmsOf = (
  alarms: readonly Pick<AlarmRow, 'alarm'>[],
): readonly string[] => [
  ...new Set(alarms.map(({ alarm }) => alarm).filter((alarm) => INVALIDATING.has(alarm))),
];
