/**
 * Alarms after which a claim is not shown, whatever was measured: each shows that a sensor or the
 * clock, on which the claim rests, cannot be trusted. An alarm raised after the measurement counts
 * too, because the fault may have been there all along.
 */
import type { AlarmId } from '../../core/alarm-ids.ts';
import { recorded, type Saying } from '../../core/sayings.ts';
import type { AlarmRow } from '../alarms-raised.ts';
import { ENGLISH_RECORD, say, sayOf } from '../language.ts';
import { clockWords, plainWords } from '../words.ts';
import { type Finding, type Ground, objects } from './claim.ts';
import type { ObjectionId } from './objections.ts';

/** Every dose is computed from the clock and the light sensor. */
export const DOSE_DOUBTS: readonly AlarmId[] = [
  'board-clock',
  'frames-stand-still',
  'light-too-bright',
  'light-not-dark',
  'light-lamp-off',
];

/** One objection for each time that one of these alarms was raised. */
export const objectsAfter =
  (doubted: readonly AlarmId[], id: ObjectionId): Ground =>
  ({ alarms }) => {
    const names: ReadonlySet<string> = new Set(doubted);
    return alarms
      .filter(({ alarm }) => names.has(alarm))
      .map((row): Finding => objects(id, alarmLine(row)));
  };

export const alarmLine = ({ alarm, raisedAtS, cause }: AlarmRow): Saying =>
  say('lines.alarm', {
    alarm: alarmNamed(alarm),
    at: clockWords(raisedAtS),
    cause: recorded(cause),
  });

/** An alarm of an older version has only its name. */
const alarmNamed = (alarm: string): Saying | string =>
  alarm in ENGLISH_RECORD.alarms ? sayOf('alarms', `${alarm}.name`) : plainWords(alarm);
