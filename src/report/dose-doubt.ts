/**
 * Alarms after which the dose is not shown, whatever was counted: each says that the clock or the
 * light sensor, of which every dose is made, cannot be believed. One that came after the cure counts
 * too, since nobody knows how long it had been so.
 */
import type { AlarmRow } from './alarms-raised.ts';

const DOUBTING_ALARMS: readonly string[] = [
  'board-clock',
  'frames-stand-still',
  'light-too-bright',
  'light-not-dark',
  'light-lamp-off',
];

/** Those that were raised, each once, in the order in which they came. */
export const doseDoubtsOf = (alarms: readonly Pick<AlarmRow, 'alarm'>[]): readonly string[] => [
  ...new Set(alarms.map(({ alarm }) => alarm).filter((alarm) => DOUBTING_ALARMS.includes(alarm))),
];
