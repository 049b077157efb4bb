import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  createLaminate,
  type Laminate,
  roomAt,
  stepLaminate,
} from '../../../../sim/plant/pane/laminate.ts';
import { DEMO_PANE, FLOAT_GLASS, type Pane } from '../../../../sim/plant/pane/pane.ts';
import {
  createPaneStress,
  hoopPa,
  type PaneStress,
  setPaneStress,
  tipDanger,
  tipIntensityPaSqrtM,
} from '../../../../sim/plant/pane/stress.ts';

const WARM_K = 293.15;
/** One sheet of 4 mm, so that closed forms of a plate hold. */
const SHEET: Pane = {
  ...DEMO_PANE,
  layers: [{ ...FLOAT_GLASS, thicknessM: 4e-3, sunRatio: 0, lampRatio: 0 }],
};
/** E alpha / (1 - nu) of the demo glass, Pa/K. */
const PA_PER_K = 787_500;

function withProfile(pane: Pane, cellsALayer: number, kelvinAt: (depthM: number) => number) {
  const laminate = createLaminate(pane, WARM_K, { spotRadiusM: 0.03, cellsALayer });
  let depthM = 0;
  for (let i = 0; i < laminate.spot.cells; i++) {
    laminate.spot.temperatureK[i] = kelvinAt(depthM + laminate.spot.widthM[i]! / 2);
    depthM += laminate.spot.widthM[i]!;
  }
  laminate.outerK = kelvinAt(0);
  laminate.innerK = kelvinAt(depthM);
  return laminate;
}

function stressOf(laminate: Laminate, pane: Pane, hold: 'clamped' | 'flat' | 'free'): PaneStress {
  const stress = createPaneStress(laminate);
  setPaneStress(stress, laminate, pane, hold);
  return stress;
}

function gunned(gunK: number) {
  const laminate = createLaminate(DEMO_PANE, WARM_K);
  const air = { ...roomAt(WARM_K), gunK, gunWPerM2K: 80 };
  for (let i = 0; i < 100; i++) stepLaminate(laminate, air, 0.05);
  return stressOf(laminate, DEMO_PANE, 'flat');
}

describe('stress through the thickness', () => {
  test('of an evenly warmed pane is nothing unless it is clamped', () => {
    const laminate = withProfile(DEMO_PANE, 4, () => WARM_K + 40);
    expect(stressOf(laminate, DEMO_PANE, 'clamped').outerFacePa).toBeCloseTo(-40 * PA_PER_K, 3);
    expect(stressOf(laminate, DEMO_PANE, 'clamped').tensionPa).toBe(0);
    expect(stressOf(laminate, DEMO_PANE, 'flat').outerFacePa).toBeCloseTo(0, 3);
    expect(stressOf(laminate, DEMO_PANE, 'free').innerFacePa).toBeCloseTo(0, 3);
  });

  test('of a straight gradient is half of it at the faces when flat and nothing when free', () => {
    const laminate = withProfile(SHEET, 8, (depthM) => WARM_K + 20 - depthM * 2500);
    const flat = stressOf(laminate, SHEET, 'flat');
    expect(flat.outerFacePa).toBeCloseTo(-5 * PA_PER_K, 3);
    expect(flat.innerFacePa).toBeCloseTo(5 * PA_PER_K, 3);
    expect(flat.tensionPa).toBeCloseTo(5 * PA_PER_K, 3);
    const free = stressOf(laminate, SHEET, 'free');
    expect(free.outerFacePa).toBeCloseTo(0, 3);
    for (const pa of free.cellPa) expect(pa).toBeCloseTo(0, 3);
  });

  test('carries no force when flat, and no moment either when free, in the glass alone', () => {
    const laminate = withProfile(DEMO_PANE, 4, (depthM) => WARM_K + 4e6 * depthM * depthM);
    const { widthM, cells } = laminate.spot;
    const sums = (stress: PaneStress) => {
      let [force, moment, depthM] = [0, 0, 0];
      for (let i = 0; i < cells; i++) {
        force += stress.cellPa[i]! * widthM[i]!;
        moment += stress.cellPa[i]! * widthM[i]! * (depthM + widthM[i]! / 2);
        depthM += widthM[i]!;
      }
      return { force, moment };
    };
    const flat = sums(stressOf(laminate, DEMO_PANE, 'flat'));
    expect(flat.force).toBeCloseTo(0, 4);
    expect(Math.abs(flat.moment)).toBeGreaterThan(1);
    const free = sums(stressOf(laminate, DEMO_PANE, 'free'));
    expect(free.force).toBeCloseTo(0, 4);
    expect(free.moment).toBeCloseTo(0, 4);
    for (let i = 4; i < 8; i++) expect(flatCell(laminate, i)).toBe(0);
  });

  test('changes sign between warming and chilling: only chilling pulls at the outer face', () => {
    const warmed = gunned(WARM_K + 60);
    const chilled = gunned(WARM_K - 60);
    expect(warmed.outerFacePa).toBeLessThan(-1e6);
    expect(warmed.innerFacePa).toBeGreaterThan(0);
    expect(chilled.outerFacePa).toBeGreaterThan(1e6);
    expect(chilled.innerFacePa).toBeLessThan(0);
    expect(chilled.tensionPa).toBe(chilled.outerFacePa);
  });
});

const flatCell = (laminate: Laminate, i: number): number =>
  stressOf(laminate, DEMO_PANE, 'flat').cellPa[i]!;

describe('round a warm spot', () => {
  test('the glass just outside is pulled by half of E alpha dT, and less further out', () => {
    expect(hoopPa(DEMO_PANE, 10, 0.03, 0.03)).toBeCloseTo(3.15e6, 3);
    expect(hoopPa(DEMO_PANE, 10, 0.03, 0.06)).toBeCloseTo(3.15e6 / 4, 3);
    expect(hoopPa(DEMO_PANE, 10, 0.03, 0.0299)).toBeCloseTo(-3.15e6, 3);
  });

  test('a leg inside the warm patch is pressed shut, one that reaches its rim is pulled', () => {
    const tip = (fromCentreM: number) =>
      tipDanger(DEMO_PANE, {
        legM: 0.01,
        acrossPa: hoopPa(DEMO_PANE, 20, 0.03, fromCentreM),
        insideGaugePa: 0,
      });
    expect(tip(0.01).intensityPaSqrtM).toBe(0);
    expect(tip(0.03).toughnessRatio).toBeGreaterThan(1);
  });

  test('a chilled spot is pulled in its middle', () => {
    expect(hoopPa(DEMO_PANE, -20, 0.03, 0)).toBeCloseTo(6.3e6, 3);
  });
});

describe('the tip of a leg', () => {
  test('feels a pressure in the leg as it feels the same tension across it', () => {
    const load = { legM: 0.02, acrossPa: 4e5, insideGaugePa: 0 };
    expect(tipIntensityPaSqrtM(load)).toBe(
      tipIntensityPaSqrtM({ ...load, acrossPa: 0, insideGaugePa: 4e5 }),
    );
  });

  test('is safer under vacuum, and never below nothing', () => {
    const load = { legM: 0.02, acrossPa: 5e4, insideGaugePa: -1e5 };
    expect(tipIntensityPaSqrtM(load)).toBe(0);
  });

  test('runs at a ratio of 1, and creeps at three times less in the demo glass', () => {
    // K = 1.12 sigma sqrt(pi a), solved for a.
    const legM = (DEMO_PANE.toughnessPaSqrtM / (1.12 * 3e6)) ** 2 / Math.PI;
    const { toughnessRatio, slowGrowthRatio } = tipDanger(DEMO_PANE, {
      legM,
      acrossPa: 3e6,
      insideGaugePa: 0,
    });
    expect(toughnessRatio).toBeCloseTo(1, 12);
    expect(slowGrowthRatio).toBeCloseTo(3, 12);
  });

  test('is in more danger the longer the leg and the warmer the spot', () => {
    const positive = () => fc.double({ min: 1e-3, max: 1, noNaN: true });
    fc.assert(
      fc.property(positive(), positive(), positive(), (leg, kelvin, more) => {
        const danger = (legM: number, dT: number) =>
          tipDanger(DEMO_PANE, {
            legM,
            acrossPa: hoopPa(DEMO_PANE, dT, 0.03, 0.03),
            insideGaugePa: 0,
          }).toughnessRatio;
        expect(danger(leg * (1 + more), kelvin)).toBeGreaterThan(danger(leg, kelvin));
        expect(danger(leg, kelvin * (1 + more))).toBeGreaterThan(danger(leg, kelvin));
      }),
    );
  });
});
