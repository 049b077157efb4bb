import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type AirState, createAir, isAirAtRest, stepAir } from '../../../../sim/plant/air/air.ts';
import type { AirDrive } from '../../../../sim/plant/air/air-flows.ts';
import { type AirUnit, DEMO_AIR_UNIT } from '../../../../sim/plant/air/air-unit.ts';
import { DEMO_FOOT } from '../../../../sim/plant/air/foot.ts';
import { ISOTHERMAL } from '../../../../sim/plant/air/gas-model.ts';

const AIR_PA = 101_325;
const GAS_K = 293.15;
const TIGHT = { sonicConductance: 5e-14, criticalRatio: 0.3 };
const RESTING: AirDrive = {
  pumpRatio: 0,
  selector: 'vacuum',
  ventOpen: true,
  supplyV: 12,
  pumpFlowRatio: 1,
  atmospherePa: AIR_PA,
  gasK: GAS_K,
  seal: TIGHT,
  hoseOn: true,
  foot: null,
  manifoldLeak: null,
  gas: ISOTHERMAL,
  sourceMolPerS: 0,
};
const DRAWING: AirDrive = { ...RESTING, pumpRatio: 1, ventOpen: false };
const PRESSING: AirDrive = { ...DRAWING, selector: 'pressure' };
const CLOSED: AirDrive = { ...RESTING, ventOpen: false };

/** Both nodes at one pressure. */
const standing = (pa: number): AirState => createAir(DEMO_AIR_UNIT, pa, GAS_K);

function runFor(
  timeS: number,
  drive: AirDrive,
  {
    startPa = AIR_PA,
    dtS = 0.001,
    unit = DEMO_AIR_UNIT,
  }: { startPa?: number; dtS?: number; unit?: AirUnit } = {},
): AirState {
  const state = createAir(unit, startPa, GAS_K);
  const steps = Math.round(timeS / dtS);
  for (let i = 0; i < steps; i++) stepAir(state, unit, drive, dtS);
  return state;
}

const held = ({ manifoldMol, injectorMol }: AirState): number => manifoldMol + injectorMol;
const booked = ({ ledger }: AirState): number =>
  Object.values(ledger).reduce((sum, mol) => sum + mol, 0);

const drives: fc.Arbitrary<AirDrive> = fc.record({
  pumpRatio: fc.double({ min: 0, max: 1, noNaN: true }),
  selector: fc.constantFrom('vacuum', 'pressure'),
  ventOpen: fc.boolean(),
  supplyV: fc.double({ min: 0, max: 15, noNaN: true }),
  pumpFlowRatio: fc.double({ min: 0, max: 1, noNaN: true }),
  atmospherePa: fc.double({ min: 60_000, max: 108_000, noNaN: true }),
  gasK: fc.double({ min: 260, max: 320, noNaN: true }),
  seal: fc.constantFrom(5e-14, 2e-12, 1e-8).map((c) => ({ ...TIGHT, sonicConductance: c })),
  foot: fc.constantFrom(null, DEMO_FOOT, { ...DEMO_FOOT, clampN: 10 }),
  hoseOn: fc.boolean(),
  manifoldLeak: fc.constantFrom(null, { ...TIGHT, sonicConductance: 2e-11 }),
  gas: fc.constantFrom(1, 1.2, 1.4).map((exponent) => ({ exponent })),
  sourceMolPerS: fc.double({ min: 0, max: 1e-6, noNaN: true }),
});

describe('the method', () => {
  const order = (run: (dtS: number) => number): number => {
    const [long, middle, short] = [0.004, 0.002, 0.001].map(run);
    return Math.log2((long! - middle!) / (middle! - short!));
  };

  test.each([
    ['while the pump draws down', DRAWING, 1, AIR_PA],
    ['while the pump presses', PRESSING, 1, AIR_PA],
    [
      'while a small leak fills a vacuum, choked',
      { ...CLOSED, seal: { ...TIGHT, sonicConductance: 1e-10 } },
      1,
      8_000,
    ],
  ])('is of second order %s: half the step, a quarter of the error', (_, drive, timeS, startPa) => {
    const found = order((dtS) => runFor(timeS, drive, { dtS, startPa }).injectorPa);
    expect(Math.abs(found - 2)).toBeLessThan(0.1);
  });

  test('misses a pump-down by less than a pascal at 1 ms', () => {
    const fine = runFor(1, DRAWING, { dtS: 0.0001 });
    const coarse = runFor(1, DRAWING);
    expect(Math.abs(coarse.manifoldPa - fine.manifoldPa)).toBeLessThan(1);
  });
});

describe('gas', () => {
  test('is in the nodes just as it is in the ledger, whatever happens', () => {
    fc.assert(
      fc.property(fc.array(drives, { minLength: 1, maxLength: 6 }), (parts) => {
        const state = standing(AIR_PA);
        const start = held(state);
        for (const drive of parts) {
          for (let i = 0; i < 50; i++) stepAir(state, DEMO_AIR_UNIT, drive, 0.001);
        }
        const moved = Object.values(state.ledger).reduce((sum, mol) => sum + Math.abs(mol), start);
        expect(Math.abs(held(state) - start - booked(state))).toBeLessThan(1e-12 * moved);
      }),
      { numRuns: 60 },
    );
  });

  test('goes where the ledger says: out by the pump, in by vent and seal, out by relief', () => {
    expect(runFor(1, DRAWING).ledger.pumpMol).toBeLessThan(-1e-4);
    expect(runFor(0.2, RESTING, { startPa: 9_000 }).ledger.ventMol).toBeGreaterThan(1e-3);
    expect(runFor(1, CLOSED, { startPa: 9_000 }).ledger.sealMol).toBeGreaterThan(1e-10);
    expect(runFor(1, CLOSED, { startPa: 330_000 }).ledger.reliefMol).toBeLessThan(-1e-6);
    const { ledger } = runFor(1, { ...CLOSED, sourceMolPerS: 1e-7 });
    expect(ledger.sourceMol).toBeCloseTo(1e-7, 16);
  });

  test('keeps pressures positive and finite for any outputs', () => {
    fc.assert(
      fc.property(
        fc.array(drives, { minLength: 1, maxLength: 6 }),
        fc.double({ min: 2_000, max: 400_000, noNaN: true }),
        (parts, startPa) => {
          const state = standing(startPa);
          for (const drive of parts) {
            for (let i = 0; i < 40; i++) {
              stepAir(state, DEMO_AIR_UNIT, drive, 0.001);
              expect(state.manifoldPa > 0 && state.injectorPa > 0).toBe(true);
              expect(Number.isFinite(state.manifoldPa + state.injectorPa)).toBe(true);
            }
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('at rest', () => {
  test('nothing changes, to a billionth of a pascal', () => {
    for (const hoseOn of [true, false]) {
      const { manifoldPa, injectorPa } = runFor(10, { ...RESTING, hoseOn });
      expect(manifoldPa).toBeCloseTo(AIR_PA, 9);
      expect(injectorPa).toBeCloseTo(AIR_PA, 9);
    }
  });

  test('the caller is told, and only then', () => {
    const rest = (drive: AirDrive, state = standing(AIR_PA)) =>
      isAirAtRest(state, DEMO_AIR_UNIT, drive);
    expect(rest(RESTING)).toBe(true);
    expect(rest({ ...RESTING, pumpRatio: 0.05 })).toBe(true);
    expect(rest({ ...RESTING, pumpRatio: 0.5 })).toBe(false);
    expect(rest({ ...RESTING, sourceMolPerS: 1e-9 })).toBe(false);
    expect(rest({ ...RESTING, atmospherePa: AIR_PA + 1 })).toBe(false);
    expect(rest({ ...RESTING, gasK: GAS_K + 1 })).toBe(false);
    const [manifold, injector] = [standing(AIR_PA), standing(AIR_PA)];
    manifold.manifoldMol *= 1.00001;
    injector.injectorMol *= 1.00001;
    expect(rest(RESTING, manifold)).toBe(false);
    expect(rest(RESTING, injector)).toBe(false);
    expect(rest(RESTING, runFor(0.1, { ...DRAWING, ventOpen: true }))).toBe(false);
  });

  test('is reached within two seconds of stopping and venting', () => {
    const state = runFor(3, DRAWING);
    for (let i = 0; i < 2000; i++) stepAir(state, DEMO_AIR_UNIT, RESTING, 0.001);
    expect(isAirAtRest(state, DEMO_AIR_UNIT, RESTING)).toBe(true);
  });
});

describe('venting', () => {
  /** The farthest past the air's pressure that either node went, Pa. */
  function overshootPa(drive: AirDrive, unit: AirUnit, startPa: number): number {
    const side = Math.sign(AIR_PA - startPa);
    const state = createAir(unit, startPa, GAS_K);
    let worstPa = 0;
    for (let i = 0; i < 300; i++) {
      stepAir(state, unit, drive, 0.001);
      const past = Math.max((state.manifoldPa - AIR_PA) * side, (state.injectorPa - AIR_PA) * side);
      worstPa = Math.max(worstPa, past);
    }
    return worstPa;
  }

  test('comes to the air without crossing it, hose on or off, in steps of 1 ms', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2_000, max: 400_000, noNaN: true }),
        fc.boolean(),
        fc.constantFrom(1, 1.2, 1.4),
        (startPa, hoseOn, exponent) => {
          const drive = { ...RESTING, hoseOn, gas: { exponent } };
          expect(overshootPa(drive, DEMO_AIR_UNIT, startPa)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  test('crosses by less than a thousandth through the largest vent that the settings allow', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2_000, max: 400_000, noNaN: true }),
        fc.double({ min: -9, max: -7.69, noNaN: true }),
        (startPa, exponent) => {
          const vent = { sonicConductance: 10 ** exponent, criticalRatio: 0.3 };
          const unit = { ...DEMO_AIR_UNIT, vent };
          expect(overshootPa(RESTING, unit, startPa)).toBeLessThan(1e-3 * AIR_PA);
        },
      ),
    );
  });

  test('reaches the injector after the manifold', () => {
    const early = runFor(0.01, RESTING, { startPa: 9_000 });
    expect(early.manifoldPa - early.injectorPa).toBeGreaterThan(500);
    const late = runFor(1, RESTING, { startPa: 9_000 });
    expect(late.manifoldPa - late.injectorPa).toBeLessThan(1e-6);
  });
});

describe('the unit', () => {
  test.each([101_325, 79_495])('draws down to one pump ratio below the air, at %i Pa', (airPa) => {
    const { manifoldPa } = runFor(30, { ...DRAWING, atmospherePa: airPa }, { startPa: airPa });
    expect(manifoldPa / (airPa / 12.5)).toBeGreaterThan(1);
    expect(manifoldPa / (airPa / 12.5)).toBeLessThan(1.01);
  });

  test('is kept by the relief valve between cracking and full, however strong the pump', () => {
    const strong = { ...DEMO_AIR_UNIT.pump, deadHeadPa: 900_000, freeFlowM3PerS: 1e-4 };
    const unit = { ...DEMO_AIR_UNIT, pump: strong };
    const gaugePa = runFor(5, PRESSING, { unit }).manifoldPa - AIR_PA;
    expect(gaugePa).toBeGreaterThan(200_000);
    expect(gaugePa).toBeLessThan(220_000);
    const shut = { ...unit, relief: { ...unit.relief, cracksPa: 1e6, fullPa: 1.1e6 } };
    expect(runFor(5, PRESSING, { unit: shut }).manifoldPa - AIR_PA).toBeGreaterThan(400_000);
  });

  test('does not chatter, however wide its relief valve opens', () => {
    const wide = { sonicConductance: 2e-8, criticalRatio: 0.3 };
    const strong = { ...DEMO_AIR_UNIT.pump, deadHeadPa: 900_000, freeFlowM3PerS: 1e-4 };
    const relief = { ...DEMO_AIR_UNIT.relief, open: wide, fullPa: 203_000 };
    const unit = { ...DEMO_AIR_UNIT, pump: strong, relief };
    const state = runFor(2, PRESSING, { unit });
    const beforePa = state.manifoldPa;
    stepAir(state, unit, PRESSING, 0.001);
    expect(Math.abs(state.manifoldPa - beforePa)).toBeLessThan(0.01);
  });

  test('reseats its relief valve: the pressure stays where it cracked', () => {
    const { manifoldPa } = runFor(1, CLOSED, { startPa: 330_000 });
    expect(manifoldPa - AIR_PA).toBeGreaterThan(199_900);
    expect(manifoldPa - AIR_PA).toBeLessThan(201_000);
  });

  test('draws down more slowly on a sagging supply', () => {
    const full = runFor(1, DRAWING);
    const sagged = runFor(1, { ...DRAWING, supplyV: 9 });
    expect(sagged.pumpSpeedRatio).toBeCloseTo(0.75, 4);
    expect(sagged.manifoldPa).toBeGreaterThan(full.manifoldPa + 5_000);
  });

  test('cannot draw down with its hose off', () => {
    const { manifoldPa, injectorPa } = runFor(5, { ...DRAWING, hoseOn: false });
    expect(AIR_PA - manifoldPa).toBeLessThan(200);
    expect(injectorPa).toBeCloseTo(AIR_PA, 6);
  });

  test('draws down quicker at first where the gas has no time to take heat', () => {
    const slow = runFor(0.5, DRAWING).manifoldPa;
    expect(runFor(0.5, { ...DRAWING, gas: { exponent: 1.4 } }).manifoldPa).toBeLessThan(
      slow - 1_000,
    );
  });
});
