/** One thing wrong with pressure or seal of the good job, and what its claim then says. */
import { ABOUT } from '../../papers-in-order.ts';
import { alarmEvent, at, GOOD_JOB } from '../job-story.ts';
import { type Case, found } from './beside-cases.ts';
import { isMeasured, measuredAs, without } from './story-changes.ts';

export const AIR_CASES: Readonly<Record<string, Case>> = {
  'a vacuum below the lowest allowed': {
    claim: 'pressure',
    state: 'not met',
    telling: { lowestPa: 14_999 },
    headline: 'the pressure left its limits',
    line: '15.0 kPa abs to 238.0 kPa abs seen, 15.0 kPa abs to 272.6 kPa abs allowed',
  },
  'a seal that leaked over its limit': {
    claim: 'seal',
    state: 'not met',
    events: measuredAs('leakRatePaM3PerS', 0.006),
    headline: 'the seal leaked',
    line: 'last test of the seal, leak rate 6.00 mPa·m³/s, at most 5.00 mPa·m³/s allowed',
  },
  'air that still came out when the job went on': {
    claim: 'seal',
    state: 'not shown',
    events: [...GOOD_JOB, found('outgassing', 190)],
    headline: 'air or vapour still came out when the job went on',
    line: 'test at 3:10 min: outgassing, leak rate 1.00 mPa·m³/s, at most 5.00 mPa·m³/s allowed: Levels like water',
  },
  'a dry seal that pressure lifted, and that was not pressed again': {
    claim: 'seal',
    state: 'not met',
    events: [
      ...GOOD_JOB,
      at(190, {
        kind: 'seal-finding',
        finding: 'leak',
        why: 'Pressure lifts it',
        under: 'pressure',
      }),
    ],
    headline: 'the seal leaked',
    line: 'pressed dry at 3:10 min: leak: Pressure lifts it',
  },
  'a seal that still gave off gas under vacuum, and held under pressure': {
    claim: 'seal',
    state: 'not shown',
    events: [
      ...GOOD_JOB,
      found('outgassing', 190),
      at(210, {
        kind: 'seal-finding',
        finding: 'tight',
        why: 'The pressure stays',
        under: 'pressure',
      }),
    ],
    headline: 'air or vapour still came out when the job went on',
    line: 'test at 3:10 min: outgassing, leak rate 1.00 mPa·m³/s, at most 5.00 mPa·m³/s allowed: Levels like water',
  },
  'a pressure that fell behind the pump’s work': {
    claim: 'pressure',
    state: 'not shown',
    events: [...GOOD_JOB, at(60, alarmEvent('pump-no-effect', 'hold'))],
    headline: 'the pressure sensor cannot be relied on',
    line: 'alarm pump no effect at 1:00 min: Expected demo, seen other',
  },
  'a seal that leaked while the pump held a set-point': {
    claim: 'seal',
    state: 'not shown',
    events: [...GOOD_JOB, at(60, alarmEvent('leak-in-dwell', 'hold'))],
    headline: 'the seal leaked while the pump held vacuum or pressure',
    line: 'alarm leak in dwell at 1:00 min: Expected demo, seen other',
  },
  'a job whose last load was not seen let down': {
    claim: 'pressure',
    state: 'not shown',
    events: without(
      ({ kind, ...event }) => kind === 'phase' && 'phase' in event && event.phase === 'ask-clear',
    ),
    headline: 'the pressure was not seen back at zero after its last load',
    line: 'the chamber was not seen at its zero after the last load',
  },
  'a journal that does not say what the pump did': {
    claim: 'pressure',
    state: 'not shown',
    events: without((event) => isMeasured(event, 'pumpStrengthRatio')),
    headline: 'the pressure rests on too little that was seen',
    line: 'what the pump’s work says of the pressure: this journal’s version did not record it',
  },
  'air of which nobody knew what it should be': {
    claim: 'pressure',
    state: 'not shown',
    about: { ...ABOUT, intake: { ...ABOUT.intake, sheet: {} } },
    headline: 'the pressure rests on too little that was seen',
    line: 'the air is known neither from a job before nor from the intake sheet',
  },
};
