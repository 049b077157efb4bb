/** Whether there is a whole record of a whole job: its checksum, its end, its holds. */
import { recorded } from '../../core/sayings.ts';
import { say } from '../language.ts';
import { clockWords, plainWords } from '../words.ts';
import type { Ground } from './claim.ts';
import { objects, supports } from './claim.ts';
import { alarmLine } from './doubts.ts';

const wholeRecord: Ground = ({ intact, ticks, end }) => {
  if (intact === null)
    return [objects('record-cut', say('lines.given', { text: recorded(end.why) }))];
  if (!intact) return [objects('record-changed', say('lines.checksum-differs'))];
  return [supports('checksum', say('lines.checksum-matches', { frames: `${ticks.length}` }))];
};

const toItsEnd: Ground = ({ end: { reason, why } }) => {
  if (reason === 'completed')
    return [supports('program', say('lines.ended-by-itself', { why: recorded(why) }))];
  const id = reason === 'stopped-by-person' ? 'stopped-by-person' : 'ended-early';
  return [objects(id, say('lines.ended', { how: say(`ends.${reason}`), why: recorded(why) }))];
};

const withoutHold: Ground = ({ holds, alarms, intact }) => {
  const stopping = alarms.filter(({ action }) => action !== 'warn');
  if (holds.length === 0 && stopping.length === 0) {
    return intact === null ? [] : [supports('program', say('lines.no-hold'))];
  }
  return [
    ...holds.map(({ fromS, toS, why, resumed }) =>
      objects(
        'interrupted',
        say(resumed ? 'lines.held' : 'lines.held-not-resumed', {
          from: clockWords(fromS),
          to: clockWords(toS),
          why: recorded(plainWords(why)),
        }),
      ),
    ),
    ...stopping.map((row) => objects('interrupted', alarmLine(row))),
  ];
};

export const RECORD_GROUNDS: readonly Ground[] = [wholeRecord];
export const COMPLETED_GROUNDS: readonly Ground[] = [toItsEnd];
export const UNINTERRUPTED_GROUNDS: readonly Ground[] = [withoutHold];
