/** The unit's papers on the day: calibrations in force, and care that was in order. */
import { recorded } from '../../core/sayings.ts';
import { say } from '../language.ts';
import { type Finding, type Ground, lacks, notInHeader, objects, supports } from './claim.ts';

/** Every channel on which a claim rests. */
const CALIBRATED = ['pressure', 'irradiance', 'temperature'] as const;

const inForce: Ground = ({ about: { calibrations, day } }) => {
  if (calibrations === null) return [notInHeader(say('lines.calibrations-in-force'))];
  return CALIBRATED.map((channel): Finding => {
    const row = calibrations.find((one) => one.channel === channel);
    const named = { channel: say(`channels.${channel}`) };
    if (row === undefined) return objects('calibration-missing', say('lines.channel-none', named));
    const { on, due } = row;
    return due < day
      ? objects('calibration-overdue', say('lines.channel-overdue', { ...named, on, due, day }))
      : supports('care record', say('lines.channel-good', { ...named, on, due }));
  });
};

/** The states of `src/care/interval.ts` that only warn, and those that need an override. */
const OVERDUE = ['overdue-warn', 'blocked'];

const careInOrder: Ground = ({ about: { care } }) => {
  if (care === null) return [notInHeader(say('lines.care-state'))];
  return care.map(({ what, words, due }): Finding => {
    const stated = { what: recorded(what), state: recorded(words) };
    if (due === null) return lacks(say('lines.care-unjudged', stated));
    const line = say('lines.care', stated);
    if (OVERDUE.includes(due)) return objects('care-overdue', line);
    return due === 'never-done' ? objects('care-never-done', line) : supports('care record', line);
  });
};

export const CALIBRATION_GROUNDS: readonly Ground[] = [inForce];
export const CARE_GROUNDS: readonly Ground[] = [careInOrder];
