import { describe, expect, test } from 'vitest';
import { breakSchema, type DamageSizes, demoBreakOf } from '../../../../sim/plant/break/breaks.ts';
import { checkSettings } from '../../../../src/core/settings.ts';
import { repair } from '../repair-programme.ts';

const SIZES: DamageSizes = {
  type: 'star-break',
  diameterM: 0.022,
  pitM: 0.003,
  legs: 5,
  longestLegM: 0.01,
};
const STAR = demoBreakOf(SIZES);
const BULLSEYE = demoBreakOf({ ...SIZES, type: 'bullseye', legs: 0, longestLegM: 0 });

describe('under the demo programme (common practice, no source)', () => {
  test('a tight star of 10 mm legs is not clear after one cycle and is after two', () => {
    expect(repair(STAR, 23).clear).toEqual([false, true]);
  });

  test('a bullseye of 22 mm is clear after one', () => {
    expect(repair(BULLSEYE, 23).clear).toEqual([true, true]);
  });

  test('a star needs 2 to 4 minutes of pressure in all', () => {
    expect(repair(STAR, 23, { pressureS: 60 }).clear).toEqual([false, false]);
    expect(repair(STAR, 23, { pressureS: 120 }).clear).toEqual([false, true]);
  });

  test('a bullseye needs less', () => {
    expect(repair(BULLSEYE, 23, { pressureS: 100, cycles: 1 }).clear).toEqual([true]);
  });

  test('a star in a cold pane is not clear after two', () => {
    const cold = repair(STAR, 5);
    expect(cold.clear).toEqual([false, false]);
    expect(cold.clarity[1]).toBeLessThan(0.9);
  });

  test('a second cycle helps', () => {
    for (const celsius of [5, 15, 23]) {
      const { clarity } = repair(STAR, celsius);
      expect(clarity[1]).toBeGreaterThan(clarity[0]! + 0.01);
    }
  });

  test('too little vacuum leaves air', () => {
    const shallow = repair(STAR, 23, { vacuumPa: 70_000 });
    expect(shallow.clear).toEqual([false, false]);
    expect(1 - shallow.clarity[1]!).toBeGreaterThan(2 * (1 - repair(STAR, 23).clarity[1]!));
  });

  test('a long crack is not clear after two', () => {
    const crack = demoBreakOf({ ...SIZES, type: 'crack', longestLegM: 0.06 });
    expect(repair(crack, 23).clear).toEqual([false, false]);
  });
});

describe('a demo break', () => {
  test('of each kind has the gaps of that kind, of the sizes on the job sheet', () => {
    const kindsOf = (type: DamageSizes['type']) =>
      demoBreakOf({ ...SIZES, type }).gaps.map(({ kind, count }) => [kind, count]);
    expect(kindsOf('bullseye')).toEqual([['disc', 1]]);
    expect(kindsOf('half-moon')).toEqual([['disc', 1]]);
    expect(kindsOf('star-break')).toEqual([
      ['leg', 1],
      ['leg', 4],
    ]);
    expect(kindsOf('combination-break')).toEqual([
      ['disc', 1],
      ['leg', 1],
      ['leg', 4],
    ]);
    expect(kindsOf('crack')).toEqual([['crack', 1]]);
    expect(STAR.gaps[0]!.lengthM).toBe(0.01);
    expect(BULLSEYE.gaps[0]!.lengthM).toBeCloseTo(0.0095, 12);
  });

  test('as a half-moon has half the volume of a bullseye', () => {
    const half = demoBreakOf({ ...SIZES, type: 'half-moon' });
    expect(BULLSEYE.gaps[0]!.volumeM3 / half.gaps[0]!.volumeM3).toBeCloseTo(2, 12);
  });

  test('with no legs told has one as long as half the damage is wide', () => {
    const legs = demoBreakOf({ ...SIZES, legs: 0, longestLegM: 0 }).gaps;
    expect(legs.map(({ lengthM }) => lengthM)).toEqual([0.011]);
  });

  test('is never shorter than a millimetre, however odd the sizes', () => {
    const odd = demoBreakOf({ ...SIZES, type: 'bullseye', diameterM: 0.001, pitM: 0.015 });
    expect(odd.gaps[0]!.lengthM).toBe(0.001);
    expect(odd.gaps[0]!.volumeM3).toBeGreaterThan(0);
  });
});

describe('a break described gap by gap', () => {
  const disc = {
    kind: 'disc',
    lengthMm: 9,
    mouthApertureUm: 8,
    endRatio: 0.3,
    fingerPercent: 40,
    pitRadiusMm: 1.5,
    turnDegrees: 180,
  };
  const leg = {
    kind: 'leg',
    count: 3,
    lengthMm: 8,
    mouthApertureUm: 1.2,
    endRatio: 0.6,
    fingerPercent: 20,
    widthMm: 1.2,
  };

  test('becomes SI values', () => {
    const { gaps } = breakSchema.parse({ gaps: [disc, leg] });
    expect(gaps[0]!.widthM).toBeCloseTo(Math.PI * 0.0015, 12);
    expect(gaps[0]!.mouthApertureM).toBeCloseTo(8e-6, 15);
    expect(gaps[1]).toMatchObject({ kind: 'leg', count: 3, lengthM: 0.008, pitRadiusM: 0 });
    expect(gaps[1]!.volumeM3).toBeGreaterThan(0);
  });

  test('is refused where a size is out of range, is missing or belongs to another kind', () => {
    const problemsOf = (gaps: unknown): string[] => {
      const checked = checkSettings(breakSchema, { gaps }, 'break.json');
      return checked.ok ? [] : checked.problems.map(({ path }) => path);
    };
    expect(problemsOf([])).toEqual(['gaps']);
    expect(problemsOf([{ ...leg, lengthMm: 0, endRatio: 2 }])).toEqual([
      'gaps.0.lengthMm',
      'gaps.0.endRatio',
    ]);
    expect(problemsOf([{ ...leg, pitRadiusMm: 1 }])).toEqual(['gaps.0.pitRadiusMm']);
    expect(problemsOf([{ ...disc, pitRadiusMm: undefined }])).toEqual(['gaps.0.pitRadiusMm']);
    expect(problemsOf([{ ...leg, kind: 'hole' }])).toEqual(['gaps.0.kind']);
  });
});
