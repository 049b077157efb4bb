/** Resin as an amount: nothing of it appears or vanishes, and a dry injector presses air. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { imbalanceOf } from '../../../../sim/plant/balance.ts';
import {
  airPaAfter,
  bookHands,
  createInjectorState,
  DEMO_INJECTOR,
  isDry,
  pitM3Of,
  stepResinAir,
} from '../../../../sim/plant/break/injector.ts';
import { clarityRatio } from '../../../../sim/plant/break/sight.ts';
import { stepPlant } from '../../../../sim/plant/plant.ts';
import {
  breakResinM3,
  createPlace,
  createPlantState,
  type Place,
  type PlantState,
} from '../../../../sim/plant/plant-state.ts';
import { soundConditions } from '../../../../sim/plant/setup.ts';
import { worldOf } from '../../../../sim/plant/world.ts';
import { type Actuators, SAFE } from '../../../../src/core/frame.ts';
import { STAR } from '../../board/lock-step.ts';

const UL = 1e-9;
const ROOM = soundConditions(296.15);
const closed: Actuators = { ...SAFE, ventOpen: false };
/** What a unit does to the chamber, pump open loop: short, so that no set-point matters. */
const DOES: Readonly<Record<'pull' | 'press' | 'vent', Actuators>> = {
  pull: { ...closed, pumpRatio: 0.5 },
  press: { ...closed, selector: 'pressure', pumpRatio: 0.4 },
  vent: SAFE,
};

interface Bench {
  readonly state: PlantState;
  readonly place: Place;
}

function benchWith(chargeUl: number | null = null): Bench {
  const world = worldOf(STAR, 0.05);
  const injector = { ...world.injector, ...(chargeUl !== null && { chargeM3: chargeUl * UL }) };
  const place = createPlace(100_600, { ...world, injector });
  const state = createPlantState(place, 296.15, 296.15);
  Object.assign(state.setup, { sealed: true, hoseOn: true, charged: true });
  return { state, place };
}

function run({ state, place }: Bench, seconds: number, outputs: Actuators, sealLeak = false): void {
  for (let t = 0; t < seconds * 20; t++) {
    stepPlant(state, place, outputs, { ...ROOM, sealLeak }, 50);
  }
}

describe('the resin in the injector', () => {
  test('is what hands put in, less the pit of 2 mm and 0.5 mm depth: 0.785 µL', () => {
    const bench = benchWith(80);
    run(bench, 0.05, SAFE);
    const { resin } = bench.state;
    expect(pitM3Of(0.002, 0.0005) / UL).toBeCloseTo(0.785, 3);
    expect(resin.pitM3 / UL).toBeCloseTo(0.785, 3);
    expect(resin.chargedM3 / UL).toBeCloseTo(80, 9);
    expect((resin.injectorM3 + breakResinM3(bench.state.filling, bench.place)) / UL).toBeCloseTo(
      79.215,
      3,
    );
  });

  test('creeps past the ring under pressure, more so over grit, and foams off under vacuum', () => {
    const [pressed, gritty, pulled] = [benchWith(), benchWith(), benchWith()];
    run(pressed, 10, DOES.press);
    run(gritty, 10, DOES.press, true);
    run(pulled, 10, DOES.pull);
    expect(pressed.state.resin.creptM3 / UL).toBeGreaterThan(0.1);
    expect(gritty.state.resin.creptM3).toBeGreaterThan(2 * pressed.state.resin.creptM3);
    expect(pulled.state.resin.foamedM3 / UL).toBeGreaterThan(0.05);
    expect([pressed.state.resin.foamedM3, pulled.state.resin.creptM3]).toEqual([0, 0]);
  });

  test('is halved by a foot that is lifted, and is whole again after a recharge', () => {
    const bench = benchWith(40);
    run(bench, 0.05, SAFE);
    const { resin, setup } = bench.state;
    const beforeM3 = resin.injectorM3;
    setup.lifts += 1;
    run(bench, 0.05, SAFE);
    expect(resin.wipedM3 / beforeM3).toBeCloseTo(0.5, 6);
    setup.recharges += 1;
    run(bench, 0.05, SAFE);
    expect(resin.injectorM3 / UL).toBeCloseTo(40, 1);
    expect(resin.chargedM3 / UL).toBeCloseTo(80, 9);
  });

  test('is conserved to a part in a thousand million, whatever unit and hands do, and never negative', () => {
    const deed = fc.record({
      does: fc.constantFrom('pull', 'press', 'vent'),
      seconds: fc.constantFrom(0.5, 2, 6),
      hands: fc.constantFrom('none', 'none', 'recharges', 'lifts'),
      leak: fc.boolean(),
    });
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 90, noNaN: true }),
        fc.array(deed, { minLength: 1, maxLength: 6 }),
        (chargeUl, deeds) => {
          const bench = benchWith(chargeUl);
          for (const { does, seconds, hands, leak } of deeds) {
            if (hands !== 'none') bench.state.setup[hands] += 1;
            run(bench, seconds, DOES[does as keyof typeof DOES], leak);
            expect(imbalanceOf(bench.state, bench.place).resinRatio).toBeLessThan(1e-9);
            expect(bench.state.resin.injectorM3).toBeGreaterThanOrEqual(0);
          }
        },
      ),
      { numRuns: 25 },
    );
  });
});

describe('a dry injector', () => {
  /** Half filled by a short pull and press, with too little for the rest. */
  function dryBench(): Bench {
    const bench = benchWith(1.2);
    run(bench, 15, DOES.pull);
    run(bench, 20, DOES.press);
    expect(isDry(bench.state.resin)).toBe(true);
    return bench;
  }

  test('presses air into the break: the fronts stand still and gas comes in', () => {
    const bench = dryBench();
    run(bench, 10, SAFE);
    const { filling } = bench.state;
    const gasMol = () => filling.gaps.reduce((sum, { trappedMol }) => sum + trappedMol, 0);
    const [beforeMol, before] = [gasMol(), clarityRatio(filling, bench.place.world.break)];
    run(bench, 15, DOES.press);
    expect(gasMol()).toBeGreaterThan(1.3 * beforeMol);
    expect(clarityRatio(filling, bench.place.world.break)).toBe(before);
    expect(imbalanceOf(bench.state, bench.place).gasRatio).toBeLessThan(1e-6);
  });

  test('fills the break no further, and one with fresh resin does', () => {
    const bench = dryBench();
    const brk = bench.place.world.break;
    const dry = clarityRatio(bench.state.filling, brk);
    run(bench, 5, SAFE);
    run(bench, 20, DOES.press);
    expect(clarityRatio(bench.state.filling, brk)).toBeCloseTo(dry, 6);
    run(bench, 60, SAFE);
    Object.assign(bench.place.world.injector, { chargeM3: 80 * UL });
    bench.state.setup.recharges += 1;
    run(bench, 20, DOES.pull);
    run(bench, 2, SAFE);
    run(bench, 20, DOES.press);
    expect(clarityRatio(bench.state.filling, brk)).toBeGreaterThan(dry + 0.05);
  });
});

describe('the air in the resin', () => {
  test('leaves under vacuum by 63 % a minute, and soaks in thirty times slower', () => {
    expect(airPaAfter(100_000, 20_000, 60)).toBeCloseTo(20_000 + 80_000 / Math.E, 6);
    expect(airPaAfter(100_000, 240_000, 2000)).toBeCloseTo(240_000 - 140_000 / Math.E, 6);
    expect(airPaAfter(100_000, 240_000, 60)).toBeLessThan(105_000);
  });

  test('is given off as it was taken up: solubility times volume times the fall', () => {
    const state = { ...createInjectorState(), injectorM3: 80e-9, airPa: 100_000 };
    // 2.5e-5 mol/(m3 Pa) x 80 uL x 80 kPa, over an hour.
    expect(stepResinAir(state, 20_000, 2.5e-5, 3600) * 3600).toBeCloseTo(1.6e-7, 15);
    expect(state.airPa).toBeCloseTo(20_000, 3);
    expect(stepResinAir(state, 240_000, 2.5e-5, 10)).toBeLessThan(0);
  });

  test('of fresh resin is that of the room, whatever the one before had lost', () => {
    const state = { ...createInjectorState(), airPa: 20_000 };
    bookHands(state, DEMO_INJECTOR, { charges: 1, lifts: 0 }, 101_325);
    expect(state.airPa).toBe(101_325);
  });
});
