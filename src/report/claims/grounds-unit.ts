/** The unit's papers on the day: calibrations in force, and care that was in order. */
import { type Finding, type Ground, lacks, notInHeader, objects, supports } from './claim.ts';

/** Every channel on which a claim rests. */
const CALIBRATED = ['pressure', 'irradiance', 'temperature'] as const;

const inForce: Ground = ({ about: { calibrations, day } }) => {
  if (calibrations === null) return [notInHeader('the calibrations in force')];
  return CALIBRATED.map((channel): Finding => {
    const row = calibrations.find((one) => one.channel === channel);
    if (row === undefined) return objects('calibration-missing', `${channel}: none in force`);
    const words = `${channel}: calibrated on ${row.on}, good until ${row.due}`;
    return row.due < day
      ? objects('calibration-overdue', `${words}; the job was on ${day}`)
      : supports('care record', words);
  });
};

/** The states of `src/care/interval.ts` that only warn, and those that need an override. */
const OVERDUE = ['overdue-warn', 'blocked'];

const careInOrder: Ground = ({ about: { care } }) => {
  if (care === null) return [notInHeader('the state of care')];
  return care.map(({ what, words, due }): Finding => {
    const line = `${what}: ${words}`;
    if (due === null)
      return lacks(`${line} (whether that was in order, this journal’s version did not record)`);
    if (OVERDUE.includes(due)) return objects('care-overdue', line);
    return due === 'never-done' ? objects('care-never-done', line) : supports('care record', line);
  });
};

export const CALIBRATION_GROUNDS: readonly Ground[] = [inForce];
export const CARE_GROUNDS: readonly Ground[] = [careInOrder];
