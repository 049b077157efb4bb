/** Whether there is a whole record of a whole job: its checksum, its end, its holds. */
import { clockWords, END_WORDS, plainWords } from '../words.ts';
import type { Ground } from './claim.ts';
import { objects, supports } from './claim.ts';
import { alarmLine } from './doubts.ts';

const wholeRecord: Ground = ({ intact, ticks, end }) => {
  if (intact === null) return [objects('record-cut', end.why)];
  if (!intact) return [objects('record-changed', 'its checksum does not match')];
  return [supports('checksum', `matches, over ${ticks.length} frames and all events`)];
};

const toItsEnd: Ground = ({ end: { reason, why } }) => {
  if (reason === 'completed') return [supports('program', `the job ended by itself: ${why}`)];
  const id = reason === 'stopped-by-person' ? 'stopped-by-person' : 'ended-early';
  return [objects(id, `${END_WORDS[reason]}: ${why}`)];
};

const withoutHold: Ground = ({ holds, alarms, intact }) => {
  const stopping = alarms.filter(({ action }) => action !== 'warn');
  if (holds.length === 0 && stopping.length === 0) {
    return intact === null
      ? []
      : [supports('program', 'no hold, and no alarm that holds or ends a job')];
  }
  return [
    ...holds.map(({ fromS, toS, why, resumed }) =>
      objects(
        'interrupted',
        `held from ${clockWords(fromS)} to ${clockWords(toS)} min${resumed ? '' : ', not resumed'}: ${plainWords(why)}`,
      ),
    ),
    ...stopping.map((row) => objects('interrupted', alarmLine(row))),
  ];
};

export const RECORD_GROUNDS: readonly Ground[] = [wholeRecord];
export const COMPLETED_GROUNDS: readonly Ground[] = [toItsEnd];
export const UNINTERRUPTED_GROUNDS: readonly Ground[] = [withoutHold];
