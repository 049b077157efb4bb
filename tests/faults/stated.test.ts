/** What a record states of light and times, on hand-made figures: within its uncertainty or false. */
import { expect, test } from 'vitest';
import { doseMisstated, type StatedFigures, timesMisstated } from './stated.ts';
import type { Truth } from './truth.ts';

const DOSE = {
  portion: 'fill and pit',
  verdict: 'met',
  doseJPerM2: 15_000,
  targetJPerM2: 13_000,
  atResin: null,
  targetSetBy: 'profile',
  lampOnS: 75,
  irradianceMeanWPerM2: 200,
  throughPitJPerM2: null,
  uncertainty: {
    standardJPerM2: 500,
    coverageFactor: 2,
    coveragePercent: 95,
    expandedJPerM2: 1_000,
    shownJPerM2: 13_500,
  },
} as const;

/** Clocks within 0.2 %; 21.5 s of vacuum and 40 s of pressure. */
const STATED: StatedFigures = {
  doses: [DOSE],
  cycles: [
    {
      cycle: 1,
      vacuumReachedPa: 25_000,
      lowestPa: 24_800,
      vacuumHeldS: 21.5,
      pressureReachedPa: 238_000,
      highestPa: 239_000,
      pressureHeldS: 40,
    },
  ],
  measured: [{ atS: 240, name: 'clockOffAtMostRatio', portion: null, value: 0.002 }],
};

const truth = (vacuumS: number, pressureS: number, sensorJPerM2: number): Truth => {
  const stretch = (phase: 'vacuum-dwell' | 'ask-bubbles' | 'pressure-dwell', trueS: number) => ({
    phase,
    cycle: 1,
    boardFromS: 0,
    trueS,
    paS: 0,
    inMol: 0,
  });
  return {
    stretches: [
      stretch('vacuum-dwell', vacuumS - 1.5),
      stretch('ask-bubbles', 1.5),
      stretch('pressure-dwell', pressureS),
    ],
    coldestK: 295,
    hottestK: 300,
    fillJPerM2: 13_000,
    pitJPerM2: 0,
    atSensor: { fillJPerM2: sensorJPerM2, pitJPerM2: 0 },
    litOpenS: 0,
    looksClear: true,
    filledRatio: 1,
    clockRatio: 1,
    atmospherePa: 100_600,
  };
};

test.each([
  [13_500, null],
  [13_400, '1340 mJ/cm2 came to the sensor, 1350 to 1600 stated'],
  [16_000, null],
  [16_100, '1610 mJ/cm2 came to the sensor, 1350 to 1600 stated'],
])('%d J/m2 at the sensor: %s', (sensorJPerM2, why) => {
  expect(doseMisstated(STATED, truth(21.5, 40, sensorJPerM2), 'fill and pit')).toBe(why);
});

test('light that late frames left out widens what is stated upwards', () => {
  const late = { atS: 240, name: 'doseUncountedJPerM2', portion: null, value: 200 } as const;
  const stated = { ...STATED, measured: [...STATED.measured, late] };
  expect(doseMisstated(stated, truth(21.5, 40, 16_100), 'fill and pit')).toBe(null);
});

test('a dose without an uncertainty cannot be shown', () => {
  const stated = { ...STATED, doses: [{ ...DOSE, uncertainty: null }] };
  expect(doseMisstated(stated, truth(21.5, 40, 15_000), 'fill and pit')).toContain('not stated');
});

/** 0.2 % of 21.5 s and two ticks at each of two stretches; of 40 s, and two ticks. */
test.each([
  [21.7, 40, null],
  [21.8, 40, 'vacuum of cycle 1: 21.50 s stated, 21.80 s in truth, within 0.24 s'],
  [21.5, 40.17, null],
  [21.5, 39.8, 'pressure of cycle 1: 40.00 s stated, 39.80 s in truth, within 0.18 s'],
])('%d s of vacuum and %d s of pressure in truth: %s', (vacuumS, pressureS, why) => {
  expect(timesMisstated(STATED, truth(vacuumS, pressureS, 15_000))).toBe(why);
});
