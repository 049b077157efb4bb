/**
 * Alarms after which the dose is not shown, whatever was counted: each says that the clock or the
 * light sensor, of which every dose is made, cannot be believed. One that came after the cure counts
 * too, since nobody knows how long it had been so.
 */
import type { AlarmId } from '../core/alarm-ids.ts';
import type { AlarmRow } from './alarms-raised.ts';

const DOUBTING_ALARMS: readonly AlarmId[] = [
  'board-clock',
  'frames-stand-still',
  'light-too-bright',
  'light-not-dark',
  'light-lamp-off',
];

const DOUBTS: ReadonlySet<string> = new Set(DOUBTING_ALARMS);

/** Those that were raised, each once, in the order in which they came. */
export const doseDoubtsOf = (alarms: readonly Pick<AlarmRow, 'alarm'>[]): readonly string[] => [
  ...new Set(alarms.map(({ alarm }) => alarm).filter((alarm) => DOUBTS.has(alarm))),
];
