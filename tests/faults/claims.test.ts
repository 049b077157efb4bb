/** When a claim is false, on hand-made truths. */
import { expect, test } from 'vitest';
import { FALSITIES, type Seen } from './claims.ts';
import { JOBS } from './jobs.ts';
import type { Stretch, Truth } from './truth.ts';

const stretch = (phase: Stretch['phase'], trueS: number, pa: number, inMol = 0): Stretch => ({
  phase,
  cycle: 1,
  boardFromS: 0,
  trueS,
  paS: pa * trueS,
  inMol,
});

/** As the short profiles ask: 25 kPa for 20 s, 138 kPa gauge for 40 s, 1300 and 1100 mJ/cm2. */
const SOUND: Truth = {
  stretches: [
    stretch('seal-watch', 22, 60_000, 1e-6),
    stretch('vacuum-dwell', 20, 25_000),
    stretch('pressure-dwell', 40, 238_600),
  ],
  coldestK: 295,
  hottestK: 300,
  fillJPerM2: 13_000,
  pitJPerM2: 11_000,
  looksClear: true,
  filledRatio: 0.99,
  atSensor: { fillJPerM2: 16_000, pitJPerM2: 14_000 },
  litOpenS: 0.3,
  clockRatio: 1.001,
  atmospherePa: 100_600,
};

const seen = (truth: Partial<Truth>, shorted: readonly string[] = []): Seen => ({
  truth: { ...SOUND, ...truth },
  job: JOBS.apart,
  shorted,
});

test.each(Object.entries(FALSITIES))('%s is true of a sound job', (_, falsity) => {
  expect(falsity(seen({}), 'fill')).toBe(null);
  expect(falsity(seen({}), 'pit')).toBe(null);
});

const replaced = (index: number, by: Stretch): Partial<Truth> => ({
  stretches: SOUND.stretches.map((own, i) => (i === index ? by : own)),
});

test.each([
  ['dose', 'fill', { fillJPerM2: 10_500 }, '99 % of the target'],
  ['dose', 'pit', { pitJPerM2: 8_600 }, '91 % of the target'],
  ['filled', null, { looksClear: false, filledRatio: 0.5 }, '50 % of the break'],
  ['clock', null, { clockRatio: 1.34 }, 'ran at 1.340'],
  ['clock', null, { clockRatio: 0.98 }, 'ran at 0.980'],
  ['temperature', null, { hottestK: 273.15 + 43 }, '43.0 °C'],
  ['temperature', null, { coldestK: 273.15 + 9 }, '9.0 °C'],
  ['temperature', null, { coldestK: null, hottestK: null }, 'no cure'],
  ['pressure', null, replaced(1, stretch('vacuum-dwell', 20, 32_000)), 'vacuum of 32.0 kPa'],
  ['pressure', null, replaced(2, stretch('pressure-dwell', 40, 231_000)), 'pressure of 231.0 kPa'],
  ['held', null, replaced(2, stretch('pressure-dwell', 39, 238_600)), 'held for 39.0 true s'],
  // 6.7e-5 mol in 20 s are 8.2e-3 Pa m3/s at 295 K.
  ['seal', null, replaced(0, stretch('seal-watch', 20, 60_000, 6.7e-5)), 'Pa m3/s came in'],
  ['seal', null, { stretches: SOUND.stretches.slice(1) }, 'never was tested'],
] as const)('%s (%s) is false with %j', (claim, portion, truth, why) => {
  expect(FALSITIES[claim](seen(truth), portion)).toContain(why);
});

test('a shorted contact makes the interlocks a false claim', () => {
  expect(FALSITIES.interlocks(seen({}, ['shield-cut-shorted']), null)).toContain(
    'shield-cut-shorted',
  );
});
