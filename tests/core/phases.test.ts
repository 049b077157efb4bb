import { expect, test } from 'vitest';
import {
  CLOSED_PHASES,
  CURE_PHASES,
  GLASS_PHASES,
  HOLDING_SET_POINT,
  OPEN_RESIN_PHASES,
  PHASE_IDS,
  type PhaseId,
  PIT_PHASES,
  STEP_NUMBERS,
  VACUUM_APPROACHED,
} from '../../src/core/phases.ts';

/** From the requirement: what the display has to show, part by part, place by place. */
const SHOWN = {
  '1.1': 'self-test',
  '2.1': 'job-sheet',
  '3.6': 'close-seal',
  '4.1': 'seal-pull',
  '5.1': 'evacuate',
  '5.2': 'vacuum-dwell',
  '5.3': 'ask-bubbles',
  '6.1': 'cover-fill',
  '7.1': 'scrape',
};

test('the display numbers a phase by its part and its place in it', () => {
  for (const [number, phase] of Object.entries(SHOWN)) {
    expect(STEP_NUMBERS[phase as keyof typeof STEP_NUMBERS]).toBe(number);
  }
});

test('no two phases share a number, and numbers rise in trade order', () => {
  const numbers = PHASE_IDS.map((phase) => STEP_NUMBERS[phase].split('.').map(Number));
  for (let i = 1; i < numbers.length; i++) {
    const [part = 0, place = 0] = numbers[i]!;
    const [partBefore = 0, placeBefore = 0] = numbers[i - 1]!;
    const follows = part === partBefore ? place === placeBefore + 1 : part === partBefore + 1;
    expect(follows, PHASE_IDS[i]).toBe(true);
  }
});

test('alarms of pressure, glass and light concern the phases that can do the harm', () => {
  const closed = ['seal-pull', 'seal-watch', 'long-pull', 'evacuate', 'vacuum-dwell'];
  const underPressure = ['ask-bubbles', 'pressurise', 'pressure-dwell'];
  expect([...CLOSED_PHASES].toSorted()).toEqual([...closed, ...underPressure].toSorted());
  expect([...VACUUM_APPROACHED]).toEqual(['seal-pull', 'long-pull', 'evacuate']);
  expect([...HOLDING_SET_POINT]).toEqual(['vacuum-dwell', 'ask-bubbles', 'pressure-dwell']);
  expect([...CURE_PHASES]).toEqual(['cure-fill', 'cure']);
  expect([...GLASS_PHASES].toSorted()).toEqual(
    [
      ...closed,
      ...underPressure,
      'bubbles-stay',
      'release',
      'vent',
      'measure-leg',
      // Hands may warm it there.
      'try-remedy',
      'cure-fill',
      'cure',
    ].toSorted(),
  );
});

/** In trade order, so that a phase put in between is among them without being named. */
const between = (first: PhaseId, end: PhaseId): readonly PhaseId[] =>
  PHASE_IDS.slice(PHASE_IDS.indexOf(first), PHASE_IDS.indexOf(end));

test('daylight counts from the first drop of liquid resin to the light that is meant for it', () => {
  expect([...OPEN_RESIN_PHASES]).toEqual([
    ...between('charge-injector', 'cure-fill'),
    ...between('fill-pit', 'cure'),
  ]);
});

test('every phase from the drop in the pit on is for the pit', () => {
  expect([...PIT_PHASES]).toEqual(PHASE_IDS.slice(PHASE_IDS.indexOf('fill-pit')));
});
