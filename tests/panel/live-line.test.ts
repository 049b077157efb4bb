import { expect, test } from 'vitest';
import type { Snapshot } from '../../src/events.ts';
import { type LiveValues, liveLine } from '../../src/panel/live-line.ts';

const LIVE: LiveValues = {
  phaseElapsedS: 0,
  leftS: null,
  doseMarginJPerM2: 0,
  sealLine: 'Close to the limit',
  vacuum: { askedPa: 25_000, givenPa: 25_000 },
  jobLine: '',
  resultLine: '',
};
const SNAPSHOT = { atmospherePa: 79_495 } as Snapshot;

test('where a vacuum was changed the note says what was asked and what is given', () => {
  const live = { ...LIVE, vacuum: { askedPa: 5_000, givenPa: 9_720 } };
  expect(liveLine('vacuum-note', live, SNAPSHOT)).toBe('Asked 5, get 10 kPa');
});

test('where it was not, the note says how much of the air it leaves', () => {
  expect(liveLine('vacuum-note', LIVE, SNAPSHOT)).toBe('Leaves 31 % of air');
});

test('whoever must test again reads why', () => {
  expect(liveLine('test-again', LIVE, SNAPSHOT)).toBe('Close to the limit');
});
