/** The figures of a unit file in SI units, and profiles that ask more than the unit allows. */
import { describe, expect, test } from 'vitest';
import PROFILE from '../../src/app/defaults/profile.json' with { type: 'json' };
import UNIT from '../../src/app/defaults/unit.json' with { type: 'json' };
import { profileOverLimits, unitSettingsSchema } from '../../src/control/unit-settings.ts';
import { profileSchema } from '../../src/procedure/profile.ts';

describe('a unit file', () => {
  const unit = unitSettingsSchema.parse({
    ...UNIT,
    chamberVolumeMl: 42,
    lamp: {
      lastKnownMWPerCm2: 19.5,
      peakNm: 385,
      droopPercentPerK: 0.4,
      knownAtHeatSinkC: 45,
    },
    air: { lastJobKPaAbs: 98.7 },
    openResin: { leastSeenMWPerCm2: 0.2, shownFromPercent: 30 },
  });

  test('is read into SI units', () => {
    expect(unit.chamberVolumeM3).toBeCloseTo(42e-6, 12);
    expect(unit.lampLastKnownWPerM2).toBeCloseTo(195, 9);
    expect(unit.lampPeakNm).toBe(385);
    expect(unit.lampDroopPerK).toBeCloseTo(0.004, 12);
    expect(unit.lampKnownAtK).toBeCloseTo(318.15, 9);
    expect(unit.airLastJobPa).toBeCloseTo(98_700, 6);
    expect(unit.leastSeenWPerM2).toBeCloseTo(2, 9);
    expect(unit.daylightShownFrom).toBeCloseTo(0.3, 12);
    expect(unit.limits).toEqual({
      lowestVacuumPa: 10_000,
      highestPressureGaugePa: 180_000,
      highestGlassK: expect.closeTo(318.15, 9),
      longestLampOnS: 900,
    });
  });

  test('leaves open what it does not know', () => {
    const { lampLastKnownWPerM2, airLastJobPa, language } = unitSettingsSchema.parse({
      ...UNIT,
      lamp: { lastKnownMWPerCm2: null },
    });
    expect([lampLastKnownWPerM2, airLastJobPa, language]).toEqual([null, null, 'en']);
  });

  test('whose sensor was adjusted 20 nm beside the lamp carries 12 % for it', () => {
    // 0.6 % per nanometre, the slope of the file's light path.
    const mismatch = (peakNm: number): number =>
      unitSettingsSchema.parse({ ...UNIT, lamp: { ...UNIT.lamp, peakNm } }).uncertainty.irradiance
        .mismatchRatio ?? 0;
    expect(mismatch(385)).toBeCloseTo(0.12, 9);
    expect(mismatch(345)).toBeCloseTo(0.12, 9);
    expect(mismatch(365)).toBe(0);
  });
});

describe('a profile', () => {
  const unit = unitSettingsSchema.parse(UNIT);
  const problems = (change: object) =>
    profileOverLimits(profileSchema.parse({ ...PROFILE, ...change }), unit, 'p.json').map(
      ({ file, path, value, accepted }) => `${file}: ${path} is ${value}; ${accepted}`,
    );

  test('within the limits of the unit fits', () => {
    expect(problems({})).toEqual([]);
    const edge = {
      vacuum: { ...PROFILE.vacuum, lowestKPaAbs: 10 },
      pressure: { ...PROFILE.pressure, highestKPaGauge: 180 },
      glass: { ...PROFILE.glass, highestC: 45 },
      cure: { ...PROFILE.cure, longestS: 900 },
    };
    expect(problems(edge)).toEqual([]);
  });

  test.each([
    [
      { vacuum: { ...PROFILE.vacuum, lowestKPaAbs: 9 } },
      "p.json: vacuum.lowestKPaAbs is 9; at least 10 kPa absolute, the unit's limit",
    ],
    [
      { pressure: { ...PROFILE.pressure, highestKPaGauge: 181 } },
      "p.json: pressure.highestKPaGauge is 181; at most 180 kPa over atmosphere, the unit's limit",
    ],
    [
      { glass: { ...PROFILE.glass, highestC: 46 } },
      "p.json: glass.highestC is 46; at most 45 degrees Celsius, the unit's limit",
    ],
    [
      { cure: { ...PROFILE.cure, longestS: 901 } },
      "p.json: cure.longestS is 901; at most 900 s, the unit's limit",
    ],
    [
      {
        curing: 'apart',
        pitCure: { targetAtResinMJPerCm2: 1350, leastS: 60, longestS: 901 },
      },
      "p.json: pitCure.longestS is 901; at most 900 s, the unit's limit",
    ],
  ])('that asks more is told by field, value and limit: %j', (change, line) => {
    expect(problems(change)).toEqual([line]);
  });
});
