/** The paths of trapped gas: never against its gradient, never from nothing, and bounded by Henry. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createBreakState } from '../../../../sim/plant/break/break.ts';
import {
  filledM3,
  type Gap,
  gapOf,
  resistancePerM3,
} from '../../../../sim/plant/break/gap-shapes.ts';
import {
  bubbleForHalf,
  dissolveForHalf,
  type GapState,
  type GasDrive,
  gasPa,
  spreadingS,
} from '../../../../sim/plant/break/trapped-gas.ts';

const GAS_K = 296.15;
const LEG = gapOf({
  kind: 'leg',
  count: 1,
  lengthM: 0.01,
  mouthApertureM: 7e-6,
  endRatio: 0.75,
  widthM: 0.0012,
  pitRadiusM: 0,
  fingerRatio: 0.2,
});
const DRIVE: GasDrive = {
  injectorPa: 25_000,
  viscosityPaS: 0.05,
  gasK: GAS_K,
  adhesionNPerM: 0.033,
  solubilityMolPerM3Pa: 2.5e-5,
  diffusionM2PerS: 1e-9,
  resinAirPa: 101_325,
};
/** 2 x 0.033 N/m over 7 um. */
const MOUTH_PA = 9_428.57;

const wide = (gap: Gap, mouthApertureM: number): Gap => gapOf({ ...gap, mouthApertureM });

/** A gap with resin in a share of its length and gas of a pressure ahead of it. */
function holding(gap: Gap, pa: number, filledRatio = 0.5): GapState {
  const state = createBreakState({ gaps: [gap] }, pa, GAS_K).gaps[0] as GapState;
  state.frontM = filledRatio * gap.lengthM;
  state.resinM3 = filledM3(gap, state.frontM);
  state.resistancePerM3 = resistancePerM3(gap, state.frontM);
  state.trappedMol *= (gap.volumeM3 - state.resinM3) / gap.volumeM3;
  return state;
}

/** Gas that left in a step of 10 ms, mol. */
function leftMol(gap: Gap, pa: number, drive: GasDrive = DRIVE, filledRatio = 0.5): number {
  const state = holding(gap, pa, filledRatio);
  bubbleForHalf(state, gap, drive, 0.02);
  return state.givenMol;
}

const pressure = fc.double({ min: 100, max: 400_000, noNaN: true });
const aperture = fc.double({ min: 1e-7, max: 1e-4, noNaN: true });
const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
const step = fc.double({ min: 1e-4, max: 1e4, noNaN: true });
const times = fc.double({ min: 1.01, max: 20, noNaN: true });

describe('gas past the resin', () => {
  test('never flows against its gradient: it stays where injector and mouth together press harder', () => {
    fc.assert(
      fc.property(pressure, pressure, aperture, share, (pa, injectorPa, mouthApertureM, filled) => {
        const gap = wide(LEG, mouthApertureM);
        const drive = { ...DRIVE, injectorPa };
        const held = pa <= injectorPa + (2 * DRIVE.adhesionNPerM) / mouthApertureM;
        const left = leftMol(gap, pa, drive, filled);
        if (held) expect(left).toBe(0);
        else expect(left).toBeGreaterThan(0);
      }),
    );
  });

  test('never falls below what holds it, however long the step', () => {
    fc.assert(
      fc.property(pressure, pressure, aperture, step, (pa, injectorPa, mouthApertureM, dtS) => {
        const gap = wide(LEG, mouthApertureM);
        const state = holding(gap, pa);
        bubbleForHalf(state, gap, { ...DRIVE, injectorPa }, dtS);
        const heldPa = injectorPa + (2 * DRIVE.adhesionNPerM) / mouthApertureM;
        expect(gasPa(state, gap, GAS_K)).toBeGreaterThanOrEqual(Math.min(pa, heldPa) * (1 - 1e-9));
      }),
    );
  });

  test('from nothing comes nothing', () => {
    const state = { ...holding(LEG, 101_325), trappedMol: 0 };
    bubbleForHalf(state, LEG, { ...DRIVE, injectorPa: 0 }, 10);
    expect(state).toMatchObject({ trappedMol: 0, givenMol: 0 });
  });

  test('does not flow through a gap of a millionth of a micrometre, and through one of a tenth of a millimetre down to its end', () => {
    expect(leftMol(wide(LEG, 1e-12), 101_325)).toBe(0);
    // What is above 25 kPa and the 660 Pa of such a mouth: 75.7 of 101.3 parts.
    const gap = wide(LEG, 1e-4);
    const state = holding(gap, 101_325);
    const before = state.trappedMol;
    bubbleForHalf(state, gap, DRIVE, 2000);
    expect(state.givenMol / before).toBeCloseTo(1 - 25_660 / 101_325, 4);
  });

  test('goes with the cube of the aperture where capillarity is nothing, and inversely with the viscosity', () => {
    const dry = { ...DRIVE, adhesionNPerM: 0 };
    const ratio = leftMol(wide(LEG, 2e-7), 101_325, dry) / leftMol(wide(LEG, 1e-7), 101_325, dry);
    // Twice as many moles to begin with do not matter: the flow is of volume, at one pressure.
    expect(ratio).toBeCloseTo(8, 2);
    const thick = { ...dry, viscosityPaS: 0.5 };
    const thin = { ...dry, viscosityPaS: 0.05 };
    const gap = wide(LEG, 1e-7);
    expect(leftMol(gap, 101_325, thin) / leftMol(gap, 101_325, thick)).toBeCloseTo(10, 3);
  });

  test('grows with its pressure and the aperture, and falls with injector pressure, viscosity, adhesion and the length of resin', () => {
    fc.assert(
      fc.property(times, share, (by, filled) => {
        const least = leftMol(LEG, 60_000, DRIVE, 0.5 * filled);
        expect(leftMol(LEG, 60_000 * by, DRIVE, 0.5 * filled)).toBeGreaterThan(least);
        expect(leftMol(wide(LEG, 7e-6 * by), 60_000, DRIVE, 0.5 * filled)).toBeGreaterThan(least);
        const less = (change: Partial<GasDrive>, at = 0.5 * filled): void =>
          expect(leftMol(LEG, 60_000, { ...DRIVE, ...change }, at)).toBeLessThan(least);
        less({ injectorPa: 25_000 + 1000 * by });
        less({ viscosityPaS: 0.05 * by });
        less({ adhesionNPerM: 0.033 * by });
        less({}, 0.5 * filled + 0.02 * by);
      }),
      { numRuns: 60 },
    );
  });

  test('leaves a leg under vacuum down to 34 kPa and no further: 25 of the injector, 9.4 of the mouth', () => {
    const state = holding(LEG, 101_325, 0.01);
    for (let i = 0; i < 2000; i++) bubbleForHalf(state, LEG, DRIVE, 1);
    expect(gasPa(state, LEG, GAS_K)).toBeCloseTo(25_000 + MOUTH_PA, 0);
  });
});

describe('gas in the resin', () => {
  test('spreads over the half of 1.2 mm in 146 s at 1e-9 m2/s, and in a quarter of it over half as much', () => {
    expect(spreadingS(LEG, 1e-9)).toBeCloseTo(145.9, 1);
    expect(spreadingS(gapOf({ ...LEG, widthM: 0.0006 }), 1e-9)).toBeCloseTo(36.5, 1);
  });

  test('goes in above what Henry allows and comes out below it, never past it, and is neither made nor lost', () => {
    fc.assert(
      fc.property(pressure, pressure, share, step, (pa, wasPa, filled, dtS) => {
        const state = holding(LEG, pa, filled);
        state.dissolvedMol = DRIVE.solubilityMolPerM3Pa * wasPa * state.resinM3;
        const sumMol = state.trappedMol + state.dissolvedMol;
        dissolveForHalf(state, LEG, DRIVE, dtS);
        const afterPa = state.dissolvedMol / (DRIVE.solubilityMolPerM3Pa * state.resinM3);
        const nowPa = gasPa(state, LEG, GAS_K);
        const small = 1e-9 * Math.max(pa, wasPa);
        expect((pa - wasPa) * (nowPa - afterPa)).toBeGreaterThanOrEqual(-small * small);
        expect(Math.abs(afterPa - wasPa)).toBeLessThanOrEqual(Math.abs(pa - wasPa) + small);
        expect((state.trappedMol + state.dissolvedMol) / sumMol).toBeCloseTo(1, 12);
      }),
    );
  });

  test('of no solubility takes nothing', () => {
    const state = holding(LEG, 200_000);
    dissolveForHalf(state, LEG, { ...DRIVE, solubilityMolPerM3Pa: 0 }, 100);
    expect(state.dissolvedMol).toBe(0);
  });
});
