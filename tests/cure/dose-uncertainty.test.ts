import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cureDone, cureLeftS, NO_DOSE, stepDose } from '../../src/cure/dose.ts';
import {
  type DoseUncertaintyTerms,
  doseUncertaintyJPerM2,
  leftUntilShownS,
  shownJPerM2,
} from '../../src/cure/dose-uncertainty.ts';
import { DEFAULT_PROFILE, DEFAULT_UNIT } from '../configs.ts';
import { measured } from '../frames.ts';
import { FILL_PASSES } from '../light-path.ts';

const SURE: DoseUncertaintyTerms = {
  gainRatio: 0,
  biasRatio: 0,
  zeroWPerM2: 0,
  randomWPerM2: 0,
  coverageFactor: 2,
};
const LIGHT = { doseJPerM2: 60_000, lampOnS: 300, pieces: 0 };
const uncertainty = (doubt: Partial<DoseUncertaintyTerms>, light: Partial<typeof LIGHT> = {}) =>
  doseUncertaintyJPerM2({ ...LIGHT, ...light }, { ...SURE, ...doubt });

describe('the uncertainty of a dose', () => {
  test('is nothing before there is light, whatever is in doubt', () => {
    const all = { gainRatio: 0.03, biasRatio: 0, zeroWPerM2: 1, randomWPerM2: 1 };
    expect(uncertainty(all, { doseJPerM2: 0, lampOnS: 0 })).toBe(0);
  });

  test('grows with the dose by its gain, and with time by its zero', () => {
    expect(uncertainty({ gainRatio: 0.03 })).toBeCloseTo(1_800, 9);
    expect(uncertainty({ gainRatio: 0.03 }, { doseJPerM2: 30_000 })).toBeCloseTo(900, 9);
    expect(uncertainty({ zeroWPerM2: 0.5 })).toBeCloseTo(150, 9);
    expect(uncertainty({ zeroWPerM2: 0.5 }, { doseJPerM2: 30_000 })).toBeCloseTo(150, 9);
  });

  test('grows by noise with the root of time only: noise averages down', () => {
    const short = uncertainty({ randomWPerM2: 1 });
    expect(uncertainty({ randomWPerM2: 1 }, { lampOnS: 1_200 })).toBeCloseTo(2 * short, 9);
    expect(short).toBeLessThan(uncertainty({ zeroWPerM2: 1 }) / 20);
  });

  test('adds for every stretch of light the tenth of a second that no frame saw', () => {
    // 200 W/m2 for 0.1 s, as a half-width.
    expect(uncertainty({}, { pieces: 1 })).toBeCloseTo(20 / Math.sqrt(3), 9);
    expect(uncertainty({}, { pieces: 5 })).toBeCloseTo(100 / Math.sqrt(3), 9);
  });

  test('adds its parts by their squares', () => {
    const all = { gainRatio: 0.03, biasRatio: 0, zeroWPerM2: 0.5, randomWPerM2: 1 };
    const parts = [{ gainRatio: 0.03 }, { zeroWPerM2: 0.5 }, { randomWPerM2: 1 }];
    const squares = parts.map((part) => uncertainty(part) ** 2);
    expect(uncertainty(all) ** 2).toBeCloseTo(
      squares.reduce((a, b) => a + b),
      6,
    );
  });
});

describe('what is shown', () => {
  test('is the dose less k standard uncertainties', () => {
    expect(shownJPerM2(LIGHT, { ...SURE, gainRatio: 0.03 })).toBeCloseTo(60_000 - 2 * 1_800, 9);
  });

  test('has an error that is the same in every cure taken off whole, beside them', () => {
    const terms = { ...SURE, gainRatio: 0.03, biasRatio: 0.06 };
    expect(shownJPerM2(LIGHT, terms)).toBeCloseTo(60_000 - 2 * 1_800 - 3_600, 9);
  });

  test('comes at the very time that was foretold, in steady light', () => {
    const doubts = fc.record({
      gainRatio: fc.double({ min: 0, max: 0.2, noNaN: true }),
      zeroWPerM2: fc.double({ min: 0, max: 5, noNaN: true }),
      randomWPerM2: fc.double({ min: 0, max: 5, noNaN: true }),
      biasRatio: fc.double({ min: 0, max: 0.06, noNaN: true }),
      coverageFactor: fc.double({ min: 0.9, max: 2, noNaN: true }),
    });
    const light = fc.double({ min: 50, max: 400, noNaN: true });
    const before = fc
      .record({ wPerM2: light, lampOnS: fc.double({ min: 1, max: 300, noNaN: true }) })
      .map(({ wPerM2, lampOnS }) => ({ doseJPerM2: wPerM2 * lampOnS, lampOnS, pieces: 3 }));
    fc.assert(
      fc.property(before, light, doubts, (from, wPerM2, doubt) => {
        const leftS = leftUntilShownS(from, wPerM2, 60_000, doubt);
        const shownAt = (s: number) =>
          shownJPerM2(
            { ...from, doseJPerM2: from.doseJPerM2 + wPerM2 * s, lampOnS: from.lampOnS + s },
            doubt,
          );
        expect(shownAt(leftS + 0.05)).toBeGreaterThanOrEqual(60_000);
        if (leftS > 0.05) expect(shownAt(leftS - 0.05)).toBeLessThan(60_000);
      }),
    );
  });

  test('never comes where the doubt grows as fast as the dose', () => {
    const hopeless = { ...SURE, gainRatio: 0.5 };
    expect(leftUntilShownS(LIGHT, 200, 70_000, hopeless)).toBe(Number.POSITIVE_INFINITY);
    const faint = { ...SURE, zeroWPerM2: 1 };
    expect(leftUntilShownS(LIGHT, 1.9, 70_000, faint)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('the cure of the default unit and profile', () => {
  const doubt = DEFAULT_UNIT.doseUncertaintyTerms;
  const { leastS, longestS } = DEFAULT_PROFILE.cure;
  // 48 kJ/m2 at the resin, as the sensor must read it.
  const cure = { targetJPerM2: 48_000 / FILL_PASSES, leastS, longestS };

  function cureAt(wPerM2: number) {
    let dose = NO_DOSE;
    const foretoldS = cureLeftS(NO_DOSE, wPerM2, cure, doubt);
    while (!cureDone(dose, cure, doubt) && dose.lampOnS < 2_000)
      dose = stepDose(dose, measured(wPerM2), true, 0.05);
    return { dose, foretoldS };
  }

  test('knows its dose at the resin to 3.5 %, and adds 6 % for it', () => {
    const { dose } = cureAt(195);
    expect(doseUncertaintyJPerM2(dose, doubt) / dose.doseJPerM2).toBeCloseTo(0.0346, 3);
    expect(dose.doseJPerM2 / cure.targetJPerM2).toBeCloseTo(1.06, 2);
  });

  test.each([
    ['the demo lamp', 195],
    ['the weak lamp of the demo', 195 * 0.65],
  ])('%s is done inside the longest time, when it was foretold', (_, wPerM2) => {
    const { dose, foretoldS } = cureAt(wPerM2);
    expect(dose.lampOnS).toBeLessThan(cure.longestS);
    expect(Math.abs(dose.lampOnS - foretoldS)).toBeLessThan(0.1);
  });

  test('a lamp that would just reach the bare target in the longest time is foretold too weak', () => {
    const barely = cure.targetJPerM2 / cure.longestS;
    expect(cureAt(barely).foretoldS).toBeGreaterThan(cure.longestS);
  });
});
