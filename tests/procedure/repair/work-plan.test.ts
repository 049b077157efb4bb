/** In how many places a crack is worked. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { problemLine } from '../../../src/core/settings.ts';
import { placesAlong } from '../../../src/procedure/places.ts';
import { jobTargetsOf, radiusOf } from '../../../src/procedure/repair/cure/job-target.ts';
import { partsOf, planProblems, workPlanOf } from '../../../src/procedure/repair/work-plan.ts';
import { DEFAULT_CONFIG } from '../../configs.ts';
import { CRACK, CRACK_PROFILE } from '../../repairs/crack-config.ts';

const CONFIG = { ...CRACK, profile: CRACK_PROFILE };
const { along } = CRACK_PROFILE;
const withDamage = (change: Partial<typeof CRACK.job.damage>) => ({
  ...CONFIG,
  job: { ...CONFIG.job, damage: { ...CONFIG.job.damage, ...change } },
});
const FILES = { unit: 'unit.json', job: 'job.json', profile: 'profile.json' };

describe('a crack of 45 mm, a reach of 20 mm, a field of 28 mm and overlaps of 4 mm', () => {
  test('takes three positions 12.5 mm apart and two fields 18 mm apart', () => {
    const { positions, fields } = workPlanOf(CONFIG);
    expect(positions.count).toBe(3);
    expect(positions.apartM).toBeCloseTo(0.0125, 9);
    // 46 mm are lit: the crack, and the half of its pit of 2 mm before it.
    expect(fields.count).toBe(2);
    expect(fields.apartM).toBeCloseTo(0.018, 9);
  });

  test('is filled in parts that make up the whole of it', () => {
    const mm = partsOf(CONFIG).map((m) => Math.round(m * 1e6) / 1000);
    expect(mm).toEqual([12.5, 12.5, 20]);
  });

  test('reaches no farther than its end, so that a crack that grew is past the limit', () => {
    expect(workPlanOf(CONFIG).coversM).toBeCloseTo(0.045, 9);
  });

  test('has each field judged by the light at its corner', () => {
    // Half of the diagonal of 28 by 10 mm.
    expect(radiusOf(CONFIG, 'fill')).toBeCloseTo(0.014866, 6);
    // 90 % of the centre's light at 15 mm, a parabola between: 0.9018 at the corner; film 0.86.
    const { targetJPerM2, atResinJPerM2 } = jobTargetsOf(CONFIG).fill;
    expect(atResinJPerM2 / targetJPerM2).toBeCloseTo(0.86 * 0.90178, 4);
  });

  test('has its end stopped only where a person knows that it lies in the outer ply', () => {
    expect(workPlanOf(CONFIG).endStop).toBe(true);
    expect(workPlanOf(withDamage({ crackEnd: 'not-known' })).endStop).toBe(false);
    const never = {
      ...CRACK_PROFILE,
      along: along === null ? null : { ...along, endStop: 'never' as const },
    };
    expect(workPlanOf({ ...CONFIG, profile: never }).endStop).toBe(false);
  });
});

test('a break that is no crack, and a profile that says nothing, have one place of each', () => {
  const one = { positions: { count: 1 }, fields: { count: 1 }, endStop: false, fieldRadiusM: null };
  expect(workPlanOf(withDamage({ type: 'star-break' }))).toMatchObject(one);
  expect(workPlanOf({ ...CONFIG, profile: DEFAULT_CONFIG.profile })).toMatchObject(one);
});

test('a unit that states no field has one, over the pit', () => {
  const { lightPath } = CONFIG.unit;
  const unit = {
    ...CONFIG.unit,
    lightPath: lightPath === null ? null : { ...lightPath, field: null },
  };
  expect(workPlanOf({ ...CONFIG, unit })).toMatchObject({
    fields: { count: 1 },
    fieldRadiusM: null,
  });
});

test('places cover the whole length, overlap by no less than asked, and are as few as can be', () => {
  const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(mm(1, 400), mm(5, 100), mm(0, 0.5), (length, span, share) => {
      const overlap = share * span;
      const { count, apartM } = placesAlong(length, span, overlap);
      const slack = 1e-6;
      expect((count - 1) * apartM + span).toBeGreaterThanOrEqual(length - slack);
      if (count > 1) expect(span - apartM).toBeGreaterThanOrEqual(overlap - slack);
      const fewer = count - 1;
      if (fewer > 0) expect(fewer * span - (fewer - 1) * overlap).toBeLessThan(length + slack);
    }),
  );
});

describe('is refused', () => {
  const lines = (config: Parameters<typeof planProblems>[0]) =>
    planProblems(config, FILES).map(problemLine);

  test('nothing of the demo crack', () => {
    expect(lines(CONFIG)).toEqual([]);
  });

  test('a pit wider than the field', () => {
    expect(lines(withDamage({ pitM: 0.0101 }))).toEqual([
      "job.json: damage.pitMm is 10.1 mm; accepted: at most 10.0 mm, the width of the lamp's field",
    ]);
  });

  test('a crack that takes more places than the display counts', () => {
    // (149 - 4) / (20 - 4) is more than nine.
    expect(lines(withDamage({ longestLegM: 0.148 }))).toEqual([]);
    expect(lines(withDamage({ longestLegM: 0.149 }))).toEqual([
      'job.json: damage.longestLegMm is 149.0 mm; accepted: a crack worked in at most 9 positions and fields: this takes 10 and 7',
    ]);
  });

  test('fields that overlap by more than half of themselves', () => {
    const wide = {
      ...CRACK_PROFILE,
      along: along === null ? null : { ...along, fieldsOverlapM: 0.0141 },
    };
    expect(lines({ ...CONFIG, profile: wide })).toEqual([
      "profile.json: along.fieldsOverlapMm is 14.1 mm; accepted: at most half of the lamp's field of 28.0 mm",
    ]);
  });
});
