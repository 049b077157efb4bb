/**
 * Alarms of the board and its link: silence, lateness, corrupt or missing messages, and protection
 * that the board itself has tripped. In most of these cases the board is safe by itself; the alarm
 * holds the job, so that nothing continues without a person.
 */
import type { Trip } from '../core/frame.ts';
import { type Phrase, tripPhrases } from '../core/phrases.ts';
import type { AlarmContext, AlarmRow } from './alarm-row.ts';
import { always, fixed, running, setting, TRUTH, truth } from './alarm-terms.ts';

const tripText = (trips: readonly Trip[]): Phrase =>
  trips.length === 0
    ? { say: 'nothing-tripped' }
    : { say: 'tripped', with: { trips: tripPhrases(trips) } };

/** Causes that the frame shows too, and that raise alarms of their own. */
const OWN_ALARM: ReadonlySet<Trip> = new Set(['emergency-stop', 'over-pressure-switch', 'shield']);
const hasOwnAlarm = (trip: Trip): boolean => OWN_ALARM.has(trip);

/** In tenths: whole per cent would hide values just above two. */
const clockOffWords = (offRatio: number): Phrase => ({
  say: 'clock-off',
  with: { percent: (100 * offRatio).toFixed(1) },
});

const TRIPPED = {
  ...TRUTH,
  title: 'Board has tripped',
  priority: 'high',
  action: 'hold',
  latching: false,
  // An alarm that already holds the job says more; the self-test names what it cannot clear.
  armed: (c: AlarmContext): boolean => running(c) && c.phase !== 'self-test',
  expected: { say: 'none-tripped' },
  seenText: ({ reading }: AlarmContext): Phrase => tripText(reading.trips),
  remedy: 'The board stopped by itself. See to what it names. Going on clears it if it is gone.',
} as const;

export const BOARD_ROWS: readonly AlarmRow[] = [
  {
    id: 'frames-late',
    title: 'Board answers late',
    priority: 'medium',
    action: 'hold',
    latching: false,
    quantity: 'time',
    trips: 'above',
    limit: setting(0.2, 0.1, 1),
    deadband: setting(0.05, 0, 0.2),
    delayS: fixed(0),
    armed: always,
    seen: ({ frameGapS }) => frameGapS,
    remedy: 'Check the cable. Close other programs. If it comes again, end the job.',
  },
  {
    id: 'frames-rare',
    title: 'Frames too rare',
    priority: 'medium',
    action: 'hold',
    latching: false,
    quantity: 'share',
    trips: 'above',
    limit: setting(5, 1, 20),
    deadband: setting(1, 0, 5),
    delayS: fixed(0),
    armed: always,
    seen: ({ uncountedShare }) => uncountedShare,
    remedy: 'Light and pressure act and are not counted. Check the cable, close other programs.',
  },
  {
    id: 'link-lost',
    title: 'Board is silent',
    priority: 'high',
    action: 'hold',
    latching: true,
    quantity: 'time',
    trips: 'above',
    limit: setting(0.5, 0.2, 2),
    deadband: setting(0.1, 0, 0.2),
    delayS: fixed(0),
    armed: always,
    seen: ({ silentS }) => silentS,
    remedy: 'The board makes itself safe. Check its cable and supply. Nothing goes on by itself.',
  },
  {
    id: 'board-clock',
    title: 'Board clock wrong',
    priority: 'high',
    action: 'hold',
    latching: true,
    quantity: 'share',
    trips: 'above',
    // A ceramic resonator keeps to about half a per cent (from memory).
    limit: setting(1, 0.7, 2),
    deadband: fixed(0),
    delayS: fixed(0),
    armed: always,
    seen: ({ clockOffRatio }) => clockOffRatio,
    seenText: ({ clockOffRatio }) => clockOffWords(clockOffRatio),
    remedy: 'Times and doses of this job cannot be trusted. End it and have the board looked at.',
  },
  {
    id: 'frames-stand-still',
    title: 'Board time stands',
    priority: 'high',
    action: 'hold',
    latching: true,
    quantity: 'time',
    trips: 'above',
    limit: setting(0.5, 0.2, 2),
    deadband: fixed(0),
    delayS: fixed(0),
    armed: always,
    seen: ({ clockStoodS }) => clockStoodS,
    remedy: 'The board sends the same moment again and again. Switch it off and on; end the job.',
  },
  {
    ...TRUTH,
    id: 'message-spoilt',
    title: 'Message spoilt',
    priority: 'medium',
    action: 'hold',
    latching: false,
    delayS: fixed(0),
    armed: always,
    seen: ({ reading }) => truth(reading.damaged),
    expected: { say: 'messages-pass' },
    seenText: () => ({ say: 'failed-check' }),
    remedy: 'Check cable and plugs, keep them off motor leads. If it comes again, end the job.',
  },
  {
    ...TRUTH,
    id: 'frames-missing',
    title: 'Frames missing',
    priority: 'medium',
    action: 'hold',
    latching: false,
    delayS: fixed(0),
    armed: always,
    seen: ({ reading }) => truth(reading.gap),
    expected: { say: 'every-frame' },
    seenText: () => ({ say: 'a-gap' }),
    remedy: 'Check the cable. Close other programs. If it comes again, end the job.',
  },
  {
    ...TRIPPED,
    id: 'board-tripped',
    delayS: fixed(0),
    seen: ({ reading }) => truth(reading.trips.some((trip) => !hasOwnAlarm(trip))),
  },
  {
    ...TRIPPED,
    id: 'trip-stays',
    // By then the alarm of the cause itself has been raised, unless it was gone before a frame
    // showed it.
    delayS: fixed(0.6),
    seen: ({ reading }) => truth(reading.trips.some(hasOwnAlarm)),
  },
  {
    ...TRUTH,
    id: 'lost-number',
    title: 'Unit miscalculated',
    priority: 'high',
    action: 'abort',
    latching: true,
    delayS: fixed(0),
    armed: always,
    seen: ({ lostNumber }) => truth(lostNumber !== null),
    expected: { say: 'only-numbers' },
    seenText: ({ lostNumber }) => ({ say: 'no-number', with: { place: lostNumber ?? '' } }),
    remedy: 'This is an error of the program. Keep the journal of this job and report it.',
  },
];
