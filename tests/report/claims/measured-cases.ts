/** One thing wrong with what the good job measured, and what its claim then says. */
import type { Event } from '../../../src/core/events.ts';
import { ABOUT, BOTTLE } from '../../papers-in-order.ts';
import { alarmEvent, at, GOOD_JOB } from '../job-story.ts';
import { type Case, found } from './beside-cases.ts';

export const measuredAs = (name: string, value: number): readonly Event[] =>
  GOOD_JOB.map((event) =>
    event.kind === 'measured' && event.name === name ? { ...event, value } : event,
  );
const without = (drop: (event: Event) => boolean): readonly Event[] =>
  GOOD_JOB.filter((event) => !drop(event));
export const isMeasured = (event: Event, name: string): boolean =>
  event.kind === 'measured' && event.name === name;

export const MEASURED_CASES: Readonly<Record<string, Case>> = {
  'a mark that remains': {
    claim: 'filled',
    state: 'not met',
    telling: { end: { reason: 'completed', why: 'demo', outcome: 'mark-remains' } },
    headline: 'a mark remains in the break',
    line: 'a person found it at 3:08 min',
  },
  'nobody who judged it': {
    claim: 'filled',
    state: 'not shown',
    telling: { end: { reason: 'completed', why: 'demo', outcome: null } },
    headline: 'nobody is on record as having seen the break filled',
    line: 'the record ends before anybody judged it',
  },
  'pressure on when a person said that it is clear': {
    claim: 'filled',
    state: 'not shown',
    telling: { lookPa: 102_700 },
    headline: 'the break was not seen with the pressure off',
    line: '102.7 kPa abs at 1:45 min, when a person answered that it is all clear; the air had 100.6 kPa abs',
  },
  'a dose a joule too short, its uncertainty added': {
    claim: 'dose',
    state: 'not met',
    events: measuredAs('doseJPerM2', 59_799),
    headline: 'the light dose was not reached',
    line: '5.98 J/cm² counted, at least 5.96 J/cm²; target 6.00 J/cm²',
  },
  'a dose too close to its target': {
    claim: 'dose',
    state: 'not shown',
    events: measuredAs('doseJPerM2', 60_199),
    headline: 'the light dose is too close to its target to be sure',
    line: '6.02 J/cm² counted, at least 6.00 J/cm²; target 6.00 J/cm²',
  },
  'a cure from before the lamp was interrupted': {
    claim: 'dose',
    state: 'not shown',
    events: without((event) => isMeasured(event, 'gapsPassed')),
    headline: 'the light dose rests on too little that was seen',
    line: 'interruptions of the lamp in the cure: this journal’s version did not record it',
  },
  'a cure in which no interruption passed': {
    claim: 'dose',
    state: 'not shown',
    events: measuredAs('gapsPassed', 0),
    headline: 'the light dose rests on too little that was seen',
    line: '0 interruptions of the lamp passed, 0 failed',
  },
  'a part of the light that this lamp is not known to give': {
    claim: 'dose',
    state: 'not shown',
    events: measuredAs('unconfirmedDoseJPerM2', 1),
    headline: 'the lamp is not known to give so much light',
    line: 'at least 6.00 J/cm² of it is light that this lamp is known to give',
  },
  'light of which this lamp is known to give none': {
    claim: 'dose',
    state: 'not shown',
    events: measuredAs('unconfirmedDoseJPerM2', 60_300),
    headline: 'the lamp is not known to give so much light',
    line: 'at least 0.00 J/cm² of it is light that this lamp is known to give',
  },
  'a vacuum below the lowest allowed': {
    claim: 'pressure',
    state: 'not met',
    telling: { lowestPa: 14_999 },
    headline: 'the pressure left its limits',
    line: '15.0 kPa abs to 238.0 kPa abs seen, 15.0 kPa abs to 272.6 kPa abs allowed',
  },
  'glass hotter than allowed': {
    claim: 'temperature',
    state: 'not met',
    about: { ...ABOUT, resin: { ...BOTTLE, glass: { lowestC: 12, highestC: 60 } } },
    telling: { glassK: 313.16, job: { glassC: 40 } },
    headline: 'the glass was too cold or too hot',
    line: '40.0 °C to 40.0 °C seen, 12.0 °C to 40.0 °C allowed',
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
  'a vacuum dwell a second too short': {
    claim: 'held',
    state: 'not met',
    telling: { profileWith: { vacuum: { dwellS: 36 } } },
    headline: 'vacuum, pressure or light were not held for their time',
    line: 'cycle 1, vacuum: held for 35 s, 36 s asked',
  },
  'a lamp that burned for longer than allowed': {
    claim: 'held',
    state: 'not met',
    events: measuredAs('lampOnS', 601),
    headline: 'vacuum, pressure or light were not held for their time',
    line: 'lamp on for 601 s, 30 s to 600 s allowed',
  },
  'a pressure that fell behind the pump’s work': {
    claim: 'pressure',
    state: 'not shown',
    events: [...GOOD_JOB, at(60, alarmEvent('pump-no-effect', 'hold'))],
    headline: 'the pressure sensor cannot be relied on',
    line: 'alarm pump no effect at 1:00 min: Expected demo, seen other',
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
  'a heat sink that did not warm': {
    claim: 'temperature',
    state: 'not shown',
    events: [...GOOD_JOB, at(140, alarmEvent('heat-sink-cold', 'hold'))],
    headline: 'a temperature sensor cannot be relied on',
    line: 'alarm heat sink cold at 2:20 min: Expected demo, seen other',
  },
  'a journal that does not say how the glass followed the lamp': {
    claim: 'temperature',
    state: 'not shown',
    events: without((event) => isMeasured(event, 'glassWarmedK')),
    headline: 'the temperature rests on too little that was seen',
    line: 'how glass and heat sink stood to the air and followed the lamp: this journal’s version did not record it',
  },
  'a light too short to warm the glass': {
    claim: 'temperature',
    state: 'not shown',
    events: measuredAs('glassWarmedK', 0.2),
    headline: 'the temperature rests on too little that was seen',
    line: 'the lamp warmed the glass by 0.2 K (usual 0.0 K): too little to show that its sensor sits on it and moves',
  },
  'clocks that differed by more than a hundredth': {
    claim: 'clock',
    state: 'not met',
    events: measuredAs('clockOffAtMostRatio', 0.0101),
    headline: 'the clock ran wrong',
    line: 'clocks of board and host differ by at most 1.01 % over 150 s',
  },
  'clocks that nobody compared': {
    claim: 'clock',
    state: 'not shown',
    events: without((event) => isMeasured(event, 'clockOffAtMostRatio')),
    headline: 'nothing shows that the clock ran right',
    line: 'a comparison of the clocks of board and host: this journal’s version did not record it',
  },
  'times that only the board’s clock tells': {
    claim: 'held',
    state: 'not shown',
    events: without((event) => isMeasured(event, 'clockOffAtMostRatio')),
    headline: 'the times rest on too little that was seen',
    line: 'a comparison of the clocks of board and host: this journal’s version did not record it',
  },
  'a proof of the switches that is overdue': {
    claim: 'interlocks',
    state: 'not shown',
    about: {
      ...ABOUT,
      care: [{ item: 'interlocks', state: 'proved on 1999-11-01', due: 'overdue-warn' }],
    },
    headline: 'nothing shows that the safety switches work',
    line: 'the stop’s contact that is read, and over-pressure switch: proved on 1999-11-01',
  },
  'switches that nobody ever proved': {
    claim: 'interlocks',
    state: 'not shown',
    about: {
      ...ABOUT,
      care: [{ item: 'interlocks', state: 'never proved', due: 'never-done' }],
    },
    headline: 'nothing shows that the safety switches work',
    line: 'the stop’s contact that is read, and over-pressure switch: never proved',
  },
  'light that failed with the shield read as closed': {
    claim: 'interlocks',
    state: 'not shown',
    events: [...GOOD_JOB, at(140, alarmEvent('lamp-no-light', 'hold'))],
    headline: 'the light failed with the shield read as closed',
    line: 'alarm lamp no light at 2:20 min: Expected demo, seen other',
  },
  'switches of which the journal says nothing': {
    claim: 'interlocks',
    state: 'not shown',
    about: { ...ABOUT, care: ABOUT.care.slice(0, 1) },
    headline: 'nothing shows that the safety switches work',
    line: 'the proof of the stop’s contact that is read, and over-pressure switch: this journal’s version did not record it',
  },
  'a shield that was open in the light': {
    claim: 'interlocks',
    state: 'not met',
    telling: { shieldClosed: (timeS) => timeS > 110 },
    headline: 'the lamp burned with the shield open',
    line: 'first at 1:50 min',
  },
  'a shield contact that never moved': {
    claim: 'interlocks',
    state: 'not shown',
    telling: { shieldClosed: () => true },
    headline: 'the shield switch was never seen to move',
    line: 'closed all the time before the cure that began at 1:50 min',
  },
  'a channel without a calibration': {
    claim: 'calibrations',
    state: 'not shown',
    about: { ...ABOUT, calibrations: ABOUT.calibrations.slice(1) },
    headline: 'a sensor was not calibrated',
    line: 'pressure: none in force',
  },
  'a calibration that ended a day before': {
    claim: 'calibrations',
    state: 'not met',
    about: {
      ...ABOUT,
      calibrations: ABOUT.calibrations.map((row) => ({ ...row, due: '2000-01-19' })),
    },
    headline: 'a calibration was out of date',
    line: 'pressure: calibrated on 1999-12-01, good until 2000-01-19; the job was on 2000-01-20',
  },
  'calibrations that nobody recorded': {
    claim: 'calibrations',
    state: 'not shown',
    about: { ...ABOUT, calibrations: null },
    headline: 'the calibrations are not on record',
    line: 'the calibrations in force: this journal’s version did not record it',
  },
  'overdue care that only warned': {
    claim: 'care',
    state: 'not met',
    about: {
      ...ABOUT,
      care: [{ what: 'cleaning', state: 'done on 2000-01-01', due: 'overdue-warn' }],
    },
    headline: 'care of the unit was overdue',
    line: 'cleaning: done on 2000-01-01',
  },
  'care that was never logged': {
    claim: 'care',
    state: 'not shown',
    about: { ...ABOUT, care: [{ what: 'cleaning', state: 'never logged', due: 'never-done' }] },
    headline: 'care of the unit is not on record',
    line: 'cleaning: never logged',
  },
  'care whose state an older journal does not say': {
    claim: 'care',
    state: 'not shown',
    about: { ...ABOUT, care: [{ what: 'cleaning', state: 'done on 2000-01-01' }] },
    headline: 'care of the unit is not on record',
    line: 'cleaning: done on 2000-01-01 (whether that was in order, this journal’s version did not record)',
  },
  'a hold': {
    claim: 'uninterrupted',
    state: 'not met',
    events: [...GOOD_JOB, at(150, alarmEvent('shield-open', 'hold'))],
    headline: 'it was interrupted',
    line: 'alarm shield open at 2:30 min: Expected demo, seen other',
  },
};
