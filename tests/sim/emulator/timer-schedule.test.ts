import { expect, test } from 'vitest';
import { countsToNext } from '../../../sim/emulator/timer-schedule.ts';

const UP = { TOP: 255, ocrA: 100, ocrB: 200, countingUp: true, timerMode: 0 };
const PHASE_CORRECT = 1;
const counter = (changes: Partial<Parameters<typeof countsToNext>[0]>) =>
  ({ ...UP, tcnt: 0, ...changes }) as Parameters<typeof countsToNext>[0];

test.each([
  ['to the first compare value', {}, 100],
  ['from one compare value to the next', { tcnt: 100 }, 100],
  ['from the last compare value to the wrap', { tcnt: 200 }, 56],
  ['a whole turn where all values are zero', { ocrA: 0, ocrB: 0 }, 256],
  ['past compare values over the top', { TOP: 50, tcnt: 10 }, 41],
  ['up to the turn in phase-correct mode', { timerMode: PHASE_CORRECT, tcnt: 200 }, 55],
  ['down to a compare value', { timerMode: PHASE_CORRECT, tcnt: 255, countingUp: false }, 55],
  ['down to zero', { timerMode: PHASE_CORRECT, tcnt: 100, countingUp: false }, 100],
  [
    'one count where there is nowhere to go',
    { timerMode: PHASE_CORRECT, TOP: 0, ocrA: 0, ocrB: 0 },
    1,
  ],
])('the next thing happens %s', (_, changes, counts) => {
  expect(countsToNext(counter(changes))).toBe(counts);
});
