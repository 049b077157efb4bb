import { describe, expect, test } from 'vitest';
import type { GuidedResult } from '../../../src/procedure/guided/guided-result.ts';
import { resultLines } from '../../../src/procedure/guided/guided-result-lines.ts';
import { RECORD_WORDS } from '../../../src/procedure/guided/record-words.ts';

const point = (reference: number, reading = reference) => ({
  reference,
  reading,
  readings: 40,
  readingDeviation: 0,
  ownStandard: 0,
});
const calibrated = (part: object): GuidedResult =>
  ({ checks: [], refusals: [], passed: true, ...part }) as unknown as GuidedResult;
const HEALTH = calibrated({
  channel: 'health',
  stoppedEarly: false,
  sealLeakPaPerS: 3.24,
  pumpDownS: 4.567,
  ultimatePa: 12_340,
});

/** As they stand on a display of 20 characters. */
const shown = (result: GuidedResult | null): readonly string[] => resultLines(result, RECORD_WORDS);

describe('the result of a guided procedure on the display', () => {
  test('is not passed where points are missing', () => {
    expect(shown(null)).toEqual(['Not passed']);
  });

  test('of the pressure: what to add at air and at vacuum, and its uncertainty', () => {
    const result = calibrated({
      channel: 'pressure',
      points: [point(100_600), point(20_400)],
      corrections: [120, -1_250],
      uncertainty: { standard: 86.4 },
    });
    expect(shown(result)).toEqual([
      'Passed',
      'Add at 101 +0.12 kPa',
      'Add at 20  -1.25 kPa',
      'Standard u 0.086 kPa',
    ]);
  });

  test('of the light: the mean factor of its points, and its uncertainty', () => {
    const result = calibrated({
      channel: 'irradiance',
      points: [point(210, 200), point(198, 200)],
      uncertainty: { standard: 0.0213 },
    });
    expect(shown(result)).toEqual(['Passed', 'Factor        1.0200', 'Standard u     2.1 %']);
  });

  test('of the temperature: what to add in ice and in the bath, and its uncertainty', () => {
    const result = calibrated({
      channel: 'temperature',
      points: [point(273.15), point(313.65)],
      corrections: [-0.12, 0.3],
      uncertainty: { standard: 0.1074 },
    });
    expect(shown(result)).toEqual([
      'Passed',
      'Add at 0     -0.12 K',
      'Add at 41    +0.30 K',
      'Standard u   0.107 K',
    ]);
  });

  test('of the health test: leak, pull and the deepest vacuum', () => {
    expect(shown(HEALTH)).toEqual([
      'Passed',
      'Leak        3.2 Pa/s',
      'Pull          4.57 s',
      'Deepest     12.3 kPa',
    ]);
  });

  test('of a health test that was stopped early: a bound, and no pull that was not reached', () => {
    const early = { ...HEALTH, stoppedEarly: true, pumpDownS: null, passed: false };
    expect(shown(early as GuidedResult)).toEqual([
      'Not passed',
      'Leak        3.2 Pa/s',
      'Pull              --',
      'Deepest  <= 12.3 kPa',
    ]);
  });
});
