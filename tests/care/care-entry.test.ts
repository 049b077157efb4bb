import { describe, expect, test } from 'vitest';
import { parseCareBody } from '../../src/care/care-entry.ts';
import { careSettingsSchema } from '../../src/care/care-settings.ts';
import { judgeHealth } from '../../src/care/health.ts';
import { checkSettings, problemLine } from '../../src/core/settings.ts';
import {
  CARE,
  CARE_FILE,
  healthTest,
  irradianceCalibration,
  lampReading,
  pressureCalibration,
  service,
  temperatureCalibration,
} from './records.ts';

const told = (body: unknown): readonly string[] => {
  const parsed = parseCareBody(body, 'entry 7');
  return parsed.ok ? [] : parsed.problems.map(problemLine);
};

describe('what is stored of care', () => {
  test.each([
    pressureCalibration('2024-01-01'),
    irradianceCalibration('2024-01-01', '2025-01-01'),
    temperatureCalibration('2024-01-01', '2025-01-01'),
    healthTest('2024-01-01'),
    lampReading('2024-01-01', 190),
    service('2024-01-01', 'film-roll', 100),
  ])('$what is read back as it was written', (body) => {
    expect(parseCareBody(JSON.parse(JSON.stringify(body)), 'entry 7')).toEqual({
      ok: true,
      value: body,
    });
  });

  test('is refused with its place, value and what is accepted', () => {
    expect(told({ ...service('2024-02-30', 'o-ring') })).toEqual([
      'entry 7: on is "2024-02-30"; accepted: a date as YYYY-MM-DD',
    ]);
    expect(told({ ...service('2024-01-01', 'o-ring'), service: 'polish' })[0]).toContain(
      'one of o-ring',
    );
    expect(told({ what: 'wash' })[0]).toContain('one of calibration, health, lamp, service');
    expect(told({ ...lampReading('2024-01-01', 190), person: 'somebody' })[0]).toContain(
      'no such field',
    );
    const mixed = { ...pressureCalibration('2024-01-01'), channel: 'irradiance' };
    expect(told(mixed).length).toBeGreaterThan(0);
  });
});

describe('the care file', () => {
  test('refuses an unknown field and a warning below its block', () => {
    const check = (file: unknown) => {
      const checked = checkSettings(careSettingsSchema, file, 'care.json');
      return checked.ok ? [] : checked.problems.map(problemLine);
    };
    expect(check({ ...CARE_FILE, polish: 1 })[0]).toContain('polish is 1');
    expect(check({ ...CARE_FILE, lamp: { ...CARE_FILE.lamp, warnPercent: 50 } })).toEqual([
      'care.json: lamp.warnPercent is 50; accepted: at least blockPercent',
    ]);
  });
});

describe('the test of seal and pump', () => {
  const sound = {
    sealLeakPaPerS: 50,
    sealLeakStandardPaPerS: 2,
    pumpDownS: 5,
    ultimatePa: 10_000,
    atmospherePa: 100_000,
    interlocks: { emergencyStop: true, overPressureSwitch: true },
  };
  const judge = (given: Partial<typeof sound> | { pumpDownS: null }) =>
    judgeHealth({ ...sound, ...given }, CARE.health, 2);

  test('passes only a leak that is shown to be below its limit', () => {
    const limit = CARE.health.greatestSealLeakPaPerS;
    expect(judge({ sealLeakPaPerS: limit - 4 }).passed).toBe(true);
    expect(judge({ sealLeakPaPerS: limit - 3.9 }).refusals.join()).toContain(
      'cannot be distinguished from the limit',
    );
    expect(judge({ sealLeakPaPerS: limit + 4.1 }).refusals.join()).toContain('O-ring');
    expect(judge({ sealLeakPaPerS: Number.NaN }).passed).toBe(false);
  });

  test.each([
    ['emergencyStop', 'emergency stop'],
    ['overPressureSwitch', 'over-pressure switch'],
  ] as const)('passes no unit whose %s was not seen to move', (which, words) => {
    for (const seen of [false, null]) {
      const interlocks = { ...sound.interlocks, [which]: seen };
      const judged = judgeHealth({ ...sound, interlocks }, CARE.health, 2);
      expect(judged.passed).toBe(false);
      expect(judged.refusals.join()).toContain(words);
    }
  });

  test('passes a pump up to its limits and not beyond them', () => {
    const { longestPumpDownS, highestUltimateRatio } = CARE.health;
    expect(judge({ pumpDownS: longestPumpDownS }).passed).toBe(true);
    expect(judge({ pumpDownS: longestPumpDownS + 0.1 }).passed).toBe(false);
    expect(judge({ pumpDownS: null }).passed).toBe(false);
    expect(judge({ ultimatePa: highestUltimateRatio * 100_000 }).passed).toBe(true);
    expect(judge({ ultimatePa: highestUltimateRatio * 100_000 + 1 }).passed).toBe(false);
  });
});
