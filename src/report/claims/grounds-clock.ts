/** Whether the clock, on which every time and every dose rests, ran right. */
import type { AlarmId } from '../../core/alarm-ids.ts';
import { type Ground, notRecorded } from './claim.ts';
import { objectsAfter } from './doubts.ts';

const CLOCK_ALARMS: readonly AlarmId[] = ['board-clock', 'frames-stand-still'];

const compared: Ground = () => [notRecorded('a comparison of the clocks of board and host')];

export const CLOCK_GROUNDS: readonly Ground[] = [
  objectsAfter(CLOCK_ALARMS, 'clock-or-light-in-doubt'),
  compared,
];
