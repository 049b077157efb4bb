/** Why a calibration or a health test did not pass, in the words of the display's language. */
import { describe, expect, test } from 'vitest';
import {
  calibrateIrradiance,
  calibratePressure,
  calibrateTemperature,
} from '../../../src/care/calibration.ts';
import type { CalibrationPoint } from '../../../src/care/care-entry.ts';
import { judgeHealth } from '../../../src/care/health.ts';
import type { GuidedResult } from '../../../src/procedure/guided/guided-result.ts';
import { refusalTexts } from '../../../src/procedure/guided/guided-result-lines.ts';
import { RECORD_WORDS } from '../../../src/procedure/guided/record-words.ts';
import { CARE } from '../../care/records.ts';
import { ES } from './words.ts';

const point = (reference: number, reading: number, deviation = 0): CalibrationPoint => ({
  reference,
  reading,
  readings: 25,
  readingDeviation: deviation,
});
const referenceOf = (expandedUncertainty: number) => ({
  name: 'demo reference',
  certificate: 'demo-1',
  expandedUncertainty,
  coverageFactor: 2,
  resolution: 0.1,
});
const POOR = 1e6;

const pressure = (
  first: CalibrationPoint,
  second: CalibrationPoint,
  poor = 1,
  checks = [] as const,
) =>
  calibratePressure({
    before: { zeroPa: 0, fullPa: 400_000 },
    reference: referenceOf(poor),
    unitStep: 490,
    limits: CARE.calibration.pressure.limits,
    points: [first, second],
    checks,
  }).refusals;
const temperature = (first: CalibrationPoint, second: CalibrationPoint, poor = 0.01) =>
  calibrateTemperature({
    checks: [],
    before: { aAdded: 0, bAdded: 0 },
    curve: { a: 0.00112915, b: 0.000234125, c: 8.76741e-8 },
    reference: referenceOf(poor),
    unitStep: 0.1,
    limits: CARE.calibration.temperature.limits,
    points: [first, second],
  }).refusals;
const light = (points: readonly [CalibrationPoint, ...CalibrationPoint[]], poor = 0.01) =>
  calibrateIrradiance({
    before: { fullWPerM2: 400 },
    reference: referenceOf(poor),
    unitStep: 0.1,
    limits: CARE.calibration.irradiance.limits,
    points,
  }).refusals;
const health = (given: object) =>
  judgeHealth(
    {
      sealLeakPaPerS: 1,
      sealLeakStandardPaPerS: 0.1,
      pumpDownS: 5,
      ultimatePa: 10_000,
      atmospherePa: 100_000,
      interlocks: { emergencyStop: true, overPressureSwitch: true },
      ...given,
    },
    CARE.health,
    2,
  ).refusals;

const CASES: Readonly<Record<string, readonly string[]>> = {
  'stop-contact': health({ interlocks: { emergencyStop: false, overPressureSwitch: true } }),
  'pressure-switch': health({ interlocks: { emergencyStop: true, overPressureSwitch: false } }),
  leak: health({ sealLeakPaPerS: 10_000 }),
  'leak-unclear': health({ sealLeakStandardPaPerS: 10_000 }),
  'pull-not-reached': health({ pumpDownS: null }),
  'pull-slow': health({ pumpDownS: 1_000 }),
  ultimate: health({ ultimatePa: 90_000 }),
  'points-close': pressure(point(100_000, 100_000), point(99_999, 99_999)),
  correction: pressure(point(150_000, 100_000), point(90_000, 40_000)),
  residual: pressure(point(100_000, 100_000), point(40_000, 40_000), 1, [
    point(60_000, 90_000),
  ] as unknown as readonly []),
  uncertainty: pressure(point(100_000, 100_000), point(40_000, 40_000), POOR),
  'no-light': light([point(0, 0)]),
  spread: light([point(200, 100), point(100, 200)]),
  'uncertainty-light': light([point(200, 200)], POOR),
  'look-pressure': pressure(point(150_000, 100_000), point(90_000, 40_000)),
  'look-temperature': temperature(point(273.15, 293.15), point(308, 328)),
  'look-light': light([point(400, 200)]),
};

const said = (refusals: readonly string[], words: typeof ES): readonly string[] =>
  refusalTexts({ refusals } as unknown as GuidedResult, words);

describe('a refusal of the care room', () => {
  test('is known to the display, every one', () => {
    expect(Object.keys(CASES).sort()).toEqual(Object.keys(ES.refusals).sort());
  });

  test.each(Object.entries(CASES))('is worded in Spanish: %s', (id, refusals) => {
    expect(refusals.length).toBeGreaterThan(0);
    const spanish = said(refusals, ES).join(' ');
    expect(spanish).not.toMatch(/\b(the|is|not|Check|Look|allowed|accepted|Test|was)\b/);
    const start = ES.refusals[id as keyof typeof ES.refusals].split('{')[0] ?? '';
    expect(spanish).toContain(start);
  });

  test('stays as it is where the display speaks English', () => {
    for (const refusals of Object.values(CASES)) {
      expect(said(refusals, RECORD_WORDS)).toEqual(refusals);
    }
  });

  test('keeps its figures', () => {
    const [text = ''] = said(health({ pumpDownS: 1_000 }), ES);
    expect(text).toMatch(/^La bomba tardó 1000\.0 s; se admiten \d+ s como máximo\./);
  });

  test('of another version of the program is shown as it was written', () => {
    expect(said(['The moon was full.'], ES)).toEqual(['The moon was full.']);
  });
});
