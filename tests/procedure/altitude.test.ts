import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { worded } from '../../src/core/phrases.ts';
import { deepestPa, vacuumPlanOf, vacuumUseless } from '../../src/procedure/altitude.ts';
import { selfTestFindings } from '../../src/procedure/repair/self-test.ts';
import { DEFAULT_PROFILE, DEFAULT_UNIT } from '../configs.ts';
import { HEALTHY_READING, measured } from '../frames.ts';

const SEA_LEVEL_PA = 101_325;
/** 2000 and 4000 m in the US Standard Atmosphere 1976, to a pascal (4000 m from memory). */
const AT_2000_M_PA = 79_495;
const AT_4000_M_PA = 61_640;
const { greatestRatio } = DEFAULT_UNIT.pump;

const asks = (setPointPa: number, pullPa = 60_000) => ({
  vacuum: { ...DEFAULT_PROFILE.vacuum, setPointPa },
  sealCheck: { ...DEFAULT_PROFILE.sealCheck, pullPa },
});

describe('the deepest vacuum', () => {
  test('is the atmosphere by the pump’s ratio with a margin of a fifth', () => {
    expect(deepestPa(100_000, 12.5)).toBeCloseTo(9_600, 9);
    expect(deepestPa(SEA_LEVEL_PA, 3)).toBeCloseTo(40_530, 9);
  });

  test('is given to a profile that asks for more, which says so; asked for less, nothing changes', () => {
    expect(vacuumPlanOf(100_000, asks(9_601), 12.5)).toMatchObject({
      vacuumPa: 9_601,
      sealPullPa: 60_000,
      adapted: [],
      toTell: false,
    });
    const more = vacuumPlanOf(100_000, asks(9_599), 12.5);
    expect(more.vacuumPa).toBeCloseTo(9_600, 9);
    expect(more.toTell).toBe(true);
    expect(more.adapted).toEqual([
      {
        kind: 'adapted',
        what: 'vacuum',
        askedPa: 9_599,
        givenPa: more.vacuumPa,
        why: 'this pump reaches 9.6 kPa abs in air of 100.0 kPa',
      },
    ]);
  });

  test('falls with the atmosphere: what cannot be had at sea level can be had high up', () => {
    expect(vacuumPlanOf(SEA_LEVEL_PA, asks(9_000), 12.5).vacuumPa).toBeGreaterThan(9_000);
    expect(vacuumPlanOf(AT_2000_M_PA, asks(9_000), 12.5).vacuumPa).toBe(9_000);
  });

  test('bounds the pull of the seal check likewise', () => {
    const plan = vacuumPlanOf(100_000, asks(50_000, 30_000), 3);
    expect(plan.sealPullPa).toBeCloseTo(40_000, 9);
    expect(plan.adapted.map(({ what }) => what)).toEqual(['seal-pull']);
  });
});

test('high up the seal is pulled to four fifths of the air at least, so that it is tried at all', () => {
  expect(vacuumPlanOf(75_000, asks(25_000), 12.5).sealPullPa).toBe(60_000);
  const thin = vacuumPlanOf(AT_4000_M_PA, asks(25_000), 12.5);
  expect(thin.sealPullPa).toBeCloseTo(0.8 * AT_4000_M_PA, 9);
  expect(thin.adapted[0]).toMatchObject({
    what: 'seal-pull',
    askedPa: 60_000,
    why: 'a pull must draw off a fifth of air of 61.6 kPa',
  });
});

describe('the air that a vacuum leaves', () => {
  test('is its share of the atmosphere, and told once it is a tenth more than at sea level', () => {
    expect(vacuumPlanOf(SEA_LEVEL_PA, asks(25_000), 12.5).airLeftRatio).toBeCloseTo(0.24673, 5);
    expect(vacuumPlanOf(AT_2000_M_PA, asks(25_000), 12.5)).toMatchObject({
      toTell: true,
      adapted: [],
    });
    const from = SEA_LEVEL_PA / 1.1;
    expect(vacuumPlanOf(from + 1, asks(25_000), 12.5).toTell).toBe(false);
    expect(vacuumPlanOf(from - 1, asks(25_000), 12.5).toTell).toBe(true);
  });

  test('makes a profile useless from six tenths on, and not before', () => {
    expect(vacuumUseless(100_000, asks(60_000), 12.5)).toBeNull();
    expect(vacuumUseless(100_000, asks(60_600), 12.5)).toEqual({
      say: 'vacuum-of-no-use',
      with: { share: '61', most: '60' },
    });
    // A pump of ratio 2 leaves 1.2 / 2 at its best, whatever is asked.
    expect(vacuumUseless(100_000, asks(25_000), 2.01)).toBeNull();
    expect(vacuumUseless(100_000, asks(25_000), 1.99)).not.toBeNull();
  });

  test('a useless one does not pass the self-test', () => {
    const findings = (atmospherePa: number, setPointPa: number) =>
      selfTestFindings(
        { ...HEALTHY_READING, pressurePa: measured(atmospherePa) },
        asks(setPointPa),
        greatestRatio,
      ).map((finding) => worded(finding));
    expect(findings(SEA_LEVEL_PA, 50_000)).toEqual([]);
    expect(findings(AT_2000_M_PA, 50_000)).toEqual([
      'vacuum leaves 63 % of this air, at most 60 % is of use',
    ]);
    expect(findings(30_000, 25_000)).toEqual(['not at air pressure']);
  });
});

test('whatever is asked: never deeper than asked or than the pump can, and every change is told', () => {
  const pa = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(
      pa(60_000, 108_500),
      pa(5_000, 59_000),
      pa(20_000, 90_000),
      pa(2, 100),
      (air, asked, pull, ratio) => {
        const plan = vacuumPlanOf(air, asks(asked, pull), ratio);
        expect(plan.vacuumPa).toBeGreaterThanOrEqual(asked);
        expect(plan.vacuumPa).toBeGreaterThan(air / ratio);
        expect(plan.sealPullPa).toBeGreaterThan(air / ratio);
        expect(plan.sealPullPa).toBeLessThanOrEqual(0.8 * air);
        const changed = [plan.vacuumPa !== asked, plan.sealPullPa !== pull].filter(Boolean);
        expect(plan.adapted).toHaveLength(changed.length);
        if (changed.length > 0) expect(plan.toTell).toBe(true);
      },
    ),
  );
});
