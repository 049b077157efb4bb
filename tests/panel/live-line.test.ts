import { expect, test } from 'vitest';
import { lightWords, liveLine } from '../../src/panel/live-line.ts';
import { ENGLISH, SPANISH } from './catalogues.ts';
import { LIVE, SNAPSHOT } from './views.ts';

const THIN_AIR = { ...SNAPSHOT, atmospherePa: 79_495 };

test('where a vacuum was changed the note says what was asked and what is given', () => {
  const live = { ...LIVE, vacuum: { askedPa: 5_000, givenPa: 9_720 } };
  expect(liveLine('vacuum-note', live, THIN_AIR, ENGLISH)).toBe('Asked 5, get 10 kPa');
  expect(liveLine('vacuum-note', live, THIN_AIR, SPANISH)).toBe('Pide 5, da 10 kPa');
});

test('where it was not, the note says how much of the air it leaves', () => {
  const live = { ...LIVE, vacuum: { askedPa: 25_000, givenPa: 25_000 } };
  expect(liveLine('vacuum-note', live, THIN_AIR, ENGLISH)).toBe('Leaves 31 % of air');
});

test('whoever must test again reads why', () => {
  const live = { ...LIVE, sealWhy: 'close-to-the-limit' } as const;
  expect(liveLine('test-again', live, SNAPSHOT, ENGLISH)).toBe('Close to the limit');
  expect(liveLine('test-again', live, SNAPSHOT, SPANISH)).toBe('Cerca del límite');
});

test('a caution tells how long bare eyes and skin may be in this lamp’s light, rounded down', () => {
  const light = { irradianceWPerM2: 195, eyeS: 51.28, skinS: 1379 };
  const words = lightWords({ light }, ENGLISH);
  expect(words).toMatch(/ 20 mW\/cm2 .* 51 s.* 22 min/);
});

test('where the lamp’s light is not known it is taken for harmful', () => {
  expect(lightWords({ light: null }, ENGLISH)).toMatch(/not known/);
});
