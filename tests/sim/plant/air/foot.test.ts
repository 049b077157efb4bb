/** What holds the injector's foot down, what lifts it, and what then blows by. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type AirState, createAir, crossedMol, stepAir } from '../../../../sim/plant/air/air.ts';
import type { AirDrive } from '../../../../sim/plant/air/air-flows.ts';
import { DEMO_AIR_UNIT } from '../../../../sim/plant/air/air-unit.ts';
import {
  DEMO_FOOT,
  type Foot,
  footSchema,
  liftM,
  liftsAtPa,
  pressedRestriction,
  seatingN,
  slitConductance,
  slitUnder,
} from '../../../../sim/plant/air/foot.ts';
import { ISOTHERMAL } from '../../../../sim/plant/air/gas-model.ts';

const AIR_PA = 101_325;
const GAS_K = 293.15;
const clamped = (clampN: number): Foot => ({ ...DEMO_FOOT, clampN });

/** Steps of a millisecond with the pump running into the injector. */
function pressed(
  foot: Foot,
  seconds: number,
  pumpRatio = 0.5,
  state: AirState = createAir(DEMO_AIR_UNIT, AIR_PA, GAS_K),
): AirState {
  for (let ms = 0; ms < 1000 * seconds; ms++) {
    const drive: AirDrive = {
      pumpRatio,
      selector: 'pressure',
      ventOpen: false,
      supplyV: 12,
      pumpFlowRatio: 1,
      atmospherePa: AIR_PA,
      gasK: GAS_K,
      seal: pressedRestriction(foot, state.injectorPa - AIR_PA, 0),
      foot,
      hoseOn: true,
      manifoldLeak: null,
      gas: ISOTHERMAL,
      sourceMolPerS: 0,
    };
    stepAir(state, DEMO_AIR_UNIT, drive, 1e-3);
  }
  return state;
}

describe('the forces at the foot', () => {
  test('138 kPa of gauge pressure under a ring of 20 mm lift with 43 N', () => {
    expect(seatingN(clamped(20), 138_000)).toBeCloseTo(20 - 43.354, 3);
    expect(liftsAtPa(clamped(43.354)) / 138_000).toBeCloseTo(1, 5);
  });

  test('vacuum presses the foot on as hard as pressure of the same size lifts it', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100_000, noNaN: true }), (pa) => {
        const [pulled, still, pushed] = [-pa, 0, pa].map((gauge) => seatingN(DEMO_FOOT, gauge));
        expect(pulled! - still!).toBeCloseTo(still! - pushed!, 9);
        expect(pulled).toBeGreaterThanOrEqual(still!);
      }),
    );
  });

  test('the foot stands on the glass up to the pressure that lifts it, and then by the excess over the stiffness', () => {
    const foot = clamped(30);
    expect(liftM(foot, 0.999 * liftsAtPa(foot))).toBe(0);
    // 10 kPa more, on 314 mm2: 3.14 N on 50 N/mm.
    expect(liftM(foot, liftsAtPa(foot) + 10_000) * 1e6).toBeCloseTo(62.83, 2);
  });

  test('the clamp of the demo holds more than the relief valve lets there be', () => {
    const { relief } = DEMO_AIR_UNIT;
    expect(liftsAtPa(DEMO_FOOT)).toBeGreaterThan(1.4 * relief.fullPa);
  });

  test('a clamp, a bridge or a ring out of range is refused', () => {
    const ring = {
      radiusMm: 10,
      contactWidthMm: 1.5,
      stiffnessNPerMm: 200,
      touchingConductanceDm3PerSBar: 1e-5,
      sealingKPa: 1000,
    };
    const file = { ring, clampN: 80, bridgeNPerMm: 40, curvatureRadiusM: 3 };
    expect(footSchema.parse(file).bridgeNPerM).toBe(40_000);
    for (const wrong of [{ clampN: 0 }, { bridgeNPerMm: 0 }, { curvatureRadiusM: 0.1 }]) {
      expect(footSchema.safeParse({ ...file, ...wrong }).success).toBe(false);
    }
  });
});

describe('the slit under the foot', () => {
  test('opens first where the pane curves away, and then all round', () => {
    const foot = clamped(20);
    const at = (missingN: number) => slitUnder(foot, liftsAtPa(foot) * (1 + missingN / 20));
    // A ring of 200 N/mm takes up 16.7 um with 3.3 N.
    expect(at(-4).curvedM).toBe(0);
    expect(at(-1).curvedM * 1e6).toBeCloseTo(11.667, 2);
    expect(at(-1).straightM).toBe(0);
    expect(at(1).straightM * 1e6).toBeCloseTo(20, 6);
    expect(at(1).curvedM * 1e6).toBeCloseTo(36.667, 2);
  });

  test('never closes as the pressure rises, under any clamp and on any pane', () => {
    const draw = fc.tuple(
      fc.double({ min: 1, max: 200, noNaN: true }),
      fc.double({ min: 0.3, max: 100, noNaN: true }),
      fc.double({ min: -100_000, max: 400_000, noNaN: true }),
      fc.double({ min: 0, max: 50_000, noNaN: true }),
    );
    fc.assert(
      fc.property(draw, ([clampN, curvatureRadiusM, gaugePa, morePa]) => {
        const foot = { ...DEMO_FOOT, clampN, curvatureRadiusM };
        const leak = (pa: number) => slitConductance(foot, slitUnder(foot, pa));
        expect(leak(gaugePa + morePa)).toBeGreaterThanOrEqual(leak(gaugePa));
      }),
    );
  });
});

describe('a chamber that is pressurised', () => {
  test('holds under the clamp of the demo', () => {
    const { injectorPa, ledger } = pressed(DEMO_FOOT, 10);
    expect(injectorPa - AIR_PA).toBeGreaterThan(150_000);
    expect(-ledger.sealMol).toBeLessThan(0.01 * ledger.pumpMol);
  });

  test('blows by under a clamp of 20 N, and stays near the 64 kPa that lift it', () => {
    const foot = clamped(20);
    const { injectorPa, ledger } = pressed(foot, 10);
    // On a curved pane the ring lets go a little before.
    expect(Math.abs((injectorPa - AIR_PA) / liftsAtPa(foot) - 1)).toBeLessThan(0.1);
    // All that the pump brings, but for what the chamber itself took.
    expect(-ledger.sealMol / ledger.pumpMol).toBeGreaterThan(0.8);
  });

  test('comes to rest, without a flutter of the foot', () => {
    const foot = clamped(20);
    const state = pressed(foot, 5);
    const places = Array.from({ length: 200 }, () => pressed(foot, 0.001, 0.5, state).injectorPa);
    expect(Math.max(...places) - Math.min(...places)).toBeLessThan(5);
  });

  test('under any clamp holds no more than lifts its foot, by the tenth, and loses no gas', () => {
    fc.assert(
      fc.property(fc.double({ min: 5, max: 60, noNaN: true }), (clampN) => {
        const foot = clamped(clampN);
        const startMol = createAir(DEMO_AIR_UNIT, AIR_PA, GAS_K);
        const state = pressed(foot, 4);
        expect(state.injectorPa - AIR_PA).toBeLessThan(1.1 * liftsAtPa(foot) + 3_000);
        const heldMol = state.manifoldMol + state.injectorMol;
        const beganMol = startMol.manifoldMol + startMol.injectorMol;
        expect(Math.abs(heldMol - beganMol - crossedMol(state.ledger)) / heldMol).toBeLessThan(
          1e-12,
        );
      }),
      { numRuns: 12 },
    );
  });

  test('a weak clamp passes the pull that a seal is tested with', () => {
    // 43 N lift it at 138 kPa; at 60 kPa absolute the air itself presses it on.
    const pull = pressedRestriction(clamped(20), -41_325, 0);
    expect(pull.sonicConductance * AIR_PA * AIR_PA).toBeLessThan(0.005);
    expect(slitUnder(clamped(20), -41_325)).toEqual({ curvedM: 0, straightM: 0 });
    expect(slitUnder(clamped(20), 138_000).straightM).toBeGreaterThan(1e-4);
  });
});
