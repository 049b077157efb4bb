import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  accountedMol,
  type Break,
  type BreakDrive,
  type BreakState,
  createBreakState,
  stepBreak,
} from '../../../../sim/plant/break/break.ts';
import { type Gap, gapOf } from '../../../../sim/plant/break/gap-shapes.ts';
import { gasPa } from '../../../../sim/plant/break/trapped-gas.ts';
import { kFromCelsius } from '../../../../src/core/units.ts';
import { ATMOSPHERE_PA, demoDrive, hold } from '../repair-programme.ts';

const GAS_K = kFromCelsius(23);
const PRESSED_PA = ATMOSPHERE_PA + 138_000;
const SIZES = { count: 1, endRatio: 0.6, widthM: 0.0012, pitRadiusM: 0, fingerRatio: 0.2 };
const LEG = gapOf({ ...SIZES, kind: 'leg', lengthM: 0.01, mouthApertureM: 1.2e-6 });
/** As wide as the demo's: the mouth holds back less than 10 kPa. */
const OPEN_LEG = gapOf({ ...LEG, mouthApertureM: 7e-6, endRatio: 0.75 });
const CRACK = gapOf({ ...SIZES, kind: 'crack', lengthM: 0.02, mouthApertureM: 2e-6 });
const DISC = gapOf({
  ...SIZES,
  kind: 'disc',
  lengthM: 0.0095,
  mouthApertureM: 4e-6,
  pitRadiusM: 0.0015,
  widthM: Math.PI * 0.003,
});
/** Nothing but Poiseuille, capillarity and Boyle: no gas leaves and none dissolves. */
const CLOSED = { fingerRatio: 0 };
const only = (gap: Gap): Break => ({ gaps: [gap] });

function filled(gap: Gap, drive: BreakDrive, seconds: number, stepS = 0.005) {
  const state = createBreakState(only(gap), ATMOSPHERE_PA, GAS_K);
  hold(state, only(gap), drive, seconds, stepS);
  return state.gaps[0]!;
}

const pressure = fc.double({ min: 1_000, max: 400_000, noNaN: true });
const anyGap: fc.Arbitrary<Gap> = fc
  .record({
    kind: fc.constantFrom('disc', 'leg', 'crack'),
    count: fc.integer({ min: 1, max: 5 }),
    lengthM: fc.double({ min: 0.001, max: 0.05, noNaN: true }),
    mouthApertureM: fc.double({ min: 3e-7, max: 1e-4, noNaN: true }),
    endRatio: fc.double({ min: 0.1, max: 1, noNaN: true }),
    fingerRatio: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map((drawn) =>
    gapOf({ ...drawn, widthM: 0.003, pitRadiusM: drawn.kind === 'disc' ? 0.001 : 0 }),
  );
const phase = fc.record({
  injectorPa: pressure,
  celsius: fc.double({ min: -10, max: 50, noNaN: true }),
  wet: fc.boolean(),
  gelled: fc.boolean(),
  stepS: fc.constantFrom(0.001, 0.01, 0.05),
});

describe('whatever pressures, resins and hands do', () => {
  test('the front stays inside the gap, gas stays positive, and no gas is made or lost', () => {
    fc.assert(
      fc.property(anyGap, fc.array(phase, { minLength: 1, maxLength: 8 }), (gap, phases) => {
        const brk = only(gap);
        const state = createBreakState(brk, ATMOSPHERE_PA, GAS_K);
        const gapState = state.gaps[0]!;
        const startMol = accountedMol(gapState);
        let givenMol = 0;
        let handledMol = startMol;
        for (const { injectorPa, celsius, wet, gelled, stepS } of phases) {
          const drive = { ...demoDrive(injectorPa, celsius), wet, gelled };
          for (let i = 0; i < 30; i++) {
            const before = { ...gapState };
            givenMol += stepBreak(state, brk, drive, stepS) * stepS;
            handledMol += Math.abs(gapState.givenMol - before.givenMol);
            handledMol += Math.abs(gapState.carriedMol - before.carriedMol);
            const inside = gapState.frontM >= 0 && gapState.frontM < gap.lengthM;
            expect(inside && gapState.trappedMol > 0 && gapState.dissolvedMol >= 0).toBe(true);
          }
        }
        expect(Math.abs(accountedMol(gapState) - startMol)).toBeLessThan(1e-12 * handledMol);
        expect(Math.abs(givenMol - gap.count * gapState.givenMol)).toBeLessThan(
          1e-11 * gap.count * handledMol,
        );
      }),
      { numRuns: 40 },
    );
  });
});

describe('the resin front', () => {
  test('never leaves a wide gap with hardly any gas, at the longest steps', () => {
    const wide = gapOf({ ...CRACK, mouthApertureM: 1e-4, lengthM: 0.002 });
    const state = createBreakState(only(wide), 1, GAS_K);
    const drive = demoDrive(400_000, 50);
    for (let i = 0; i < 40; i++) {
      stepBreak(state, only(wide), drive, 0.05);
      expect(state.gaps[0]!.frontM).toBeLessThan(wide.lengthM);
    }
    expect(state.gaps[0]!.frontM / wide.lengthM).toBeGreaterThan(0.9999);
  });

  test('goes further the warmer the pane and the higher the pressure', () => {
    const celsius = fc.double({ min: 0, max: 35, noNaN: true });
    const more = fc.double({ min: 1, max: 10, noNaN: true });
    fc.assert(
      fc.property(celsius, more, fc.constantFrom(LEG, CRACK, DISC), (c, moreC, gap) => {
        const cold = filled(gap, demoDrive(PRESSED_PA, c), 2, 0.005);
        expect(filled(gap, demoDrive(PRESSED_PA, c + moreC), 2).frontM).toBeGreaterThan(
          cold.frontM,
        );
        const harder = demoDrive(PRESSED_PA + moreC * 5_000, c);
        expect(filled(gap, harder, 2).frontM).toBeGreaterThan(cold.frontM);
      }),
      { numRuns: 12 },
    );
  });

  test('fills less of a gap, in the same time, the longer and the narrower the gap', () => {
    const ratio = fc.double({ min: 1.05, max: 4, noNaN: true });
    fc.assert(
      fc.property(ratio, fc.constantFrom(LEG, CRACK, DISC), (by, gap) => {
        const drive = demoDrive(PRESSED_PA, 23);
        const share = (made: Gap): number => filled(made, drive, 3).frontM / made.lengthM;
        expect(share(gapOf({ ...gap, lengthM: gap.lengthM * by }))).toBeLessThan(share(gap));
        const narrow = gapOf({ ...gap, mouthApertureM: gap.mouthApertureM / by });
        const still = { ...drive, adhesionNPerM: 0 };
        expect(filled(narrow, still, 3).frontM).toBeLessThan(filled(gap, still, 3).frontM);
      }),
      { numRuns: 12 },
    );
  });

  test('goes back when the pressure is let off before the gap is full', () => {
    const brk = only(gapOf({ ...CRACK, mouthApertureM: 2e-5 }));
    const state = createBreakState(brk, ATMOSPHERE_PA, GAS_K);
    hold(state, brk, demoDrive(300_000, 23), 5);
    const pressedM = state.gaps[0]!.frontM;
    hold(state, brk, demoDrive(ATMOSPHERE_PA, 23), 5);
    expect(state.gaps[0]!.frontM).toBeLessThan(0.5 * pressedM);
  });

  test('comes to the same place, to 2e-4 of its gap, by steps of 1 and of 10 ms', () => {
    for (const gap of [LEG, CRACK, DISC]) {
      const drive = demoDrive(PRESSED_PA, 23);
      const [fine, coarse] = [0.001, 0.01].map((stepS) => filled(gap, drive, 10, stepS).frontM);
      expect(Math.abs(fine! - coarse!)).toBeLessThan(2e-4 * gap.lengthM);
    }
  });

  test.each([
    ['leg', LEG, 20, 0.05],
    ['crack', CRACK, 20, 0.05],
    ['disc', DISC, 0.5, 0.00125],
  ] as const)('in a %s is found to second order in the step', (_, gap, seconds, stepS) => {
    const drive = demoDrive(PRESSED_PA, 23);
    const at = (parts: number) => filled(gap, drive, seconds, stepS / parts);
    const exact = at(32);
    const [coarse, fine] = [at(1), at(2)];
    for (const of of ['frontM', 'trappedMol', 'dissolvedMol'] as const) {
      const order = Math.log2((coarse[of] - exact[of]) / (fine[of] - exact[of]));
      expect(order, of).toBeGreaterThan(1.8);
      expect(order, of).toBeLessThan(2.4);
    }
  });
});

describe('trapped gas', () => {
  test('obeys Boyle: at rest its pressure is that of injector and capillary together', () => {
    const wide = gapOf({ ...CRACK, ...CLOSED, mouthApertureM: 5e-5, endRatio: 1 });
    fc.assert(
      fc.property(fc.double({ min: 110_000, max: 400_000, noNaN: true }), (injectorPa) => {
        const drive = { ...demoDrive(injectorPa, 23), solubilityMolPerM3Pa: 0 };
        const state = filled(wide, drive, 4);
        const restPa = injectorPa + (2 * drive.adhesionNPerM) / wide.mouthApertureM;
        expect(gasPa(state, wide, GAS_K) / restPa).toBeCloseTo(1, 6);
        const leftRatio = 1 - state.resinM3 / wide.volumeM3;
        expect((leftRatio * restPa) / ATMOSPHERE_PA).toBeCloseTo(1, 6);
      }),
      { numRuns: 8 },
    );
  });

  test('leaves a break the more of it, the deeper the vacuum', () => {
    const levels = [70_000, 50_000, 25_000, 10_000];
    const left = levels.map((pa) => filled(OPEN_LEG, demoDrive(pa, 23), 60, 0.01).trappedMol);
    expect(left).toEqual([...left].sort((a, b) => b - a));
    expect(left[3]! / left[0]!).toBeLessThan(0.7);
  });

  test('follows the injector both ways through a dry mouth', () => {
    const dry = { ...demoDrive(25_000, 23), wet: false };
    const state = createBreakState(only(LEG), ATMOSPHERE_PA, GAS_K);
    const out = stepBreak(state, only(LEG), dry, 0.001);
    expect(out).toBeGreaterThan(0);
    hold(state, only(LEG), dry, 2);
    expect(gasPa(state.gaps[0]!, LEG, GAS_K)).toBeCloseTo(25_000, 3);
    expect(stepBreak(state, only(LEG), { ...dry, injectorPa: ATMOSPHERE_PA }, 0.001)).toBeLessThan(
      0,
    );
    expect(state.gaps[0]!.bubbledMolPerS).toBe(0);
  });

  test('follows the injector through a dry mouth and no further, at a step of any length', () => {
    for (const stepS of [0.1, 1, 1000]) {
      const state = createBreakState(only(LEG), ATMOSPHERE_PA, GAS_K);
      stepBreak(state, only(LEG), { ...demoDrive(25_000, 23), wet: false }, stepS);
      const pa = gasPa(state.gaps[0]!, LEG, GAS_K);
      expect(pa).toBeGreaterThanOrEqual(25_000 - 1e-6);
      expect(pa).toBeLessThan(45_000);
    }
  });

  test('of gaps that are alike counts as often as they are', () => {
    const drive = demoDrive(25_000, 23);
    const given = (count: number): number => {
      const brk = only(gapOf({ ...LEG, count }));
      return stepBreak(createBreakState(brk, ATMOSPHERE_PA, GAS_K), brk, drive, 0.001);
    };
    expect(given(5)).toBeCloseTo(5 * given(1), 20);
    expect(given(1)).toBeGreaterThan(0);
  });
});

describe('dissolved gas', () => {
  const pressed = (gap: Gap, seconds: number): BreakState => {
    const state = createBreakState(only(gap), ATMOSPHERE_PA, GAS_K);
    hold(state, only(gap), demoDrive(25_000, 23), 60, 0.005);
    hold(state, only(gap), demoDrive(PRESSED_PA, 23), seconds, 0.005);
    return state;
  };

  test('grows under pressure and hides air: let off, it comes out again, slowly', () => {
    const state = pressed(LEG, 300);
    const gap = state.gaps[0]!;
    const hidden = { ...gap };
    const vented = demoDrive(ATMOSPHERE_PA, 23);
    hold(state, only(LEG), vented, 20, 0.005);
    const rested = { ...gap };
    hold(state, only(LEG), vented, 600, 0.005);
    expect(rested.dissolvedMol).toBeLessThan(hidden.dissolvedMol);
    expect(gap.dissolvedMol).toBeLessThan(0.9 * rested.dissolvedMol);
    expect(rested.frontM).toBeLessThan(hidden.frontM);
    expect(gap.frontM).toBeLessThan(rested.frontM);
  });

  test('takes more of the trapped gas the longer the pressure lasts', () => {
    const [short, long] = [pressed(OPEN_LEG, 50).gaps[0]!, pressed(OPEN_LEG, 150).gaps[0]!];
    expect(long.trappedMol).toBeLessThan(0.8 * short.trappedMol);
    expect(long.frontM).toBeGreaterThan(short.frontM);
  });
});
