import { expect, test } from 'vitest';
import {
  CLOSED_PHASES,
  CURE_PHASES,
  GLASS_PHASES,
  HOLDING_SET_POINT,
  isResinOpen,
  PHASE_IDS,
  type PhaseId,
  PIT_PHASES,
  partOf,
  STEP_NUMBERS,
  VACUUM_APPROACHED,
} from '../../src/core/phases.ts';

/** From the requirement: what the display has to show, part by part, place by place. */
const SHOWN = {
  '1.1': 'self-test',
  '2.1': 'job-sheet',
  '1.1a': 'air-jump',
  '1.1b': 'vacuum-note',
  '3.2a': 'glass-gate',
  '3.6': 'close-seal',
  '3.7': 'connect-hose',
  '4.1': 'seal-pull',
  '4.2': 'seal-watch',
  '4.2a': 'reseat',
  '4.3': 'seal-open',
  '4.6': 'press-off',
  '4.6a': 'foot-lifts',
  '4.7': 'charge-injector',
  '5.1': 'evacuate',
  '5.2': 'vacuum-dwell',
  '5.3': 'ask-bubbles',
  '5.3a': 'bubbles-stay',
  '6.1': 'injector-off',
  '6.1a': 'cover-fill',
  '6.2': 'fill-pit',
  '7.1': 'scrape',
};

test('the display numbers a phase by its part and its place in it', () => {
  for (const [number, phase] of Object.entries(SHOWN)) {
    expect(STEP_NUMBERS[phase as keyof typeof STEP_NUMBERS]).toBe(number);
  }
});

test('no two phases share a number, and numbers rise in trade order', () => {
  const parts = PHASE_IDS.map((phase) => {
    const [, part = '', place = '', letter = ''] =
      /^(\d)\.(\d{1,2})([a-h]?)$/.exec(STEP_NUMBERS[phase]) ?? [];
    return { part: Number(part), place: Number(place), letter: letter.charCodeAt(0) || 96 };
  });
  for (let i = 1; i < parts.length; i++) {
    const { part, place, letter } = parts[i]!;
    const before = parts[i - 1]!;
    const follows =
      part === before.part
        ? letter > 96
          ? place === before.place && letter === before.letter + 1
          : place === before.place + 1
        : part === before.part + 1 && place === 1 && letter === 96;
    expect(follows, PHASE_IDS[i]).toBe(true);
  }
});

/** By hand: what a sound job shows, and with the fill cured apart. */
const TOGETHER = [
  ...['self-test', 'job-sheet', 'protect', 'inspect', 'clean-pit', 'dry-pit', 'set-bridge'],
  ...['close-seal', 'connect-hose', 'seal-pull', 'seal-watch'],
  ...['seal-open', 'seal-press', 'press-watch', 'press-off', 'charge-injector', 'evacuate'],
  ...['vacuum-dwell', 'ask-bubbles', 'release', 'pressurise', 'pressure-dwell', 'vent'],
  ...['ask-clear', 'injector-off', 'fill-pit', 'cover-film', 'place-lamp', 'cure', 'scrape'],
  ...['polish', 'clean-injector', 'final-look', 'result'],
] as readonly PhaseId[];

test('a sound job shows every number once, without a gap', () => {
  const shown = TOGETHER.map((phase) => STEP_NUMBERS[phase]);
  const parts = [1, 2, 3, 4, 5, 6, 7].map((part) =>
    shown.filter((number) => number.startsWith(`${part}.`)),
  );
  for (const [index, numbers] of parts.entries()) {
    expect(numbers).toEqual(numbers.map((_, place) => `${index + 1}.${place + 1}`));
  }
});

test('alarms of pressure, glass and light concern the phases that can do the harm', () => {
  const closed = ['seal-pull', 'seal-watch', 'long-pull', 'evacuate', 'vacuum-dwell'];
  const underPressure = [
    ...['ask-bubbles', 'pressurise', 'pressure-dwell'],
    ...['seal-press', 'press-watch'],
  ];
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
      'seal-open',
      'press-off',
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
  // Until its last field is cured, a crack has liquid resin in it.
  const open = [
    ...between('charge-injector', 'cure-fill'),
    ...between('fill-pit', 'cure'),
    'move-lamp',
  ];
  expect(PHASE_IDS.filter((phase) => isResinOpen(phase, true) && partOf(phase) !== 'seal')).toEqual(
    open.filter((phase) => phase !== 'charge-injector'),
  );
  // A leg may grow while the break is still dry.
  const dryToo = open.filter((phase) => phase !== 'measure-leg');
  expect(PHASE_IDS.filter((phase) => isResinOpen(phase, false))).toEqual(dryToo);
});

test('a seal that is tested again has resin under it once the injector is charged', () => {
  // Pressed before any resin is there, and never with it.
  const pressed = between('seal-open', 'move-injector');
  expect(pressed).toHaveLength(5);
  const tested = between('seal-pull', 'charge-injector').filter((one) => !pressed.includes(one));
  expect(tested).toContain('reseat');
  for (const phase of tested) {
    expect(isResinOpen(phase, false), phase).toBe(false);
    expect(isResinOpen(phase, true), phase).toBe(true);
  }
});

test('every phase from the drop in the pit on is for the pit', () => {
  expect([...PIT_PHASES]).toEqual(PHASE_IDS.slice(PHASE_IDS.indexOf('fill-pit')));
});
