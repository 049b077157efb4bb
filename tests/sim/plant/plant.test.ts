import { describe, expect, test } from 'vitest';
import { standardAtmospherePa } from '../../../sim/plant/air/atmosphere.ts';
import type { Break } from '../../../sim/plant/break/break.ts';
import { type DamageSizes, demoBreakOf } from '../../../sim/plant/break/breaks.ts';
import { clarityRatio, looksClear } from '../../../sim/plant/break/sight.ts';
import { stepPlant } from '../../../sim/plant/plant.ts';
import {
  createPlace,
  createPlantState,
  type Place,
  type PlantState,
} from '../../../sim/plant/plant-state.ts';
import { type Conditions, soundConditions } from '../../../sim/plant/setup.ts';
import { worldOf } from '../../../sim/plant/world.ts';
import { type Actuators, SAFE } from '../../../src/core/frame.ts';
import { BULLSEYE, STAR } from '../board/lock-step.ts';

const CALM: Conditions = { ...soundConditions(296.15), ambientUvWPerM2: 0 };

interface Bench {
  readonly state: PlantState;
  readonly place: Place;
  readonly conditions: Conditions;
}

function benchWith(
  damage: DamageSizes,
  glassK = 296.15,
  atmospherePa = 100_600,
  brk: Break = demoBreakOf(damage),
): Bench {
  const place = createPlace(atmospherePa, worldOf(damage, 0.05, { break: brk }));
  const state = createPlantState(place, glassK, glassK);
  Object.assign(state.setup, { sealed: true, hoseOn: true, charged: true });
  return { state, place, conditions: { ...CALM, airK: glassK } };
}

/** Runs for a time in ticks of 50 ms; gives the time for which bubbles were seen. */
function run({ state, place, conditions }: Bench, seconds: number, outputs: () => Actuators) {
  let bubblingS = 0;
  for (let t = 0; t < seconds * 20; t++) {
    stepPlant(state, place, outputs(), conditions, 50);
    if (state.bubbling) bubblingS += 0.05;
  }
  return bubblingS;
}

const closed: Actuators = { ...SAFE, ventOpen: false };

/** A vacuum dwell of 60 s at 25 kPa, a pressure dwell of 150 s at 138 kPa gauge, and a vent. */
function runCycle(bench: Bench): number {
  const { state, place } = bench;
  const aimPa = place.atmospherePa + 138_000;
  const bubblingS = run(bench, 60, () => ({
    ...closed,
    pumpRatio: state.air.manifoldPa > 25_000 ? 0.5 : 0,
  }));
  run(bench, 150, () => ({
    ...closed,
    selector: 'pressure',
    pumpRatio: state.air.manifoldPa < aimPa ? 0.5 : 0,
  }));
  run(bench, 5, () => SAFE);
  return bubblingS;
}

/** The pull of the seal test, 60 kPa for 47 s, comes before the first cycle and draws gas as well. */
function testSeal(bench: Bench): void {
  const { air } = bench.state;
  run(bench, 47, () => ({ ...closed, pumpRatio: air.manifoldPa > 60_000 ? 0.5 : 0 }));
}

const look = ({ state, place }: Bench) => looksClear(state.filling, place.world.break);
const filled = ({ state, place }: Bench) => clarityRatio(state.filling, place.world.break);

describe('air', () => {
  test('a vented chamber stands at the atmosphere, to the pascal', () => {
    const bench = benchWith(STAR);
    run(bench, 2, () => ({ ...SAFE, pumpRatio: 0 }));
    expect(bench.state.air.manifoldPa).toBeCloseTo(100_600, 0);
  });

  test.each([0, 2000])(
    'full drive reaches one part in 12.5 of the atmosphere at %i m',
    (heightM) => {
      const atmospherePa = standardAtmospherePa(heightM);
      const bench = benchWith(STAR, 296.15, atmospherePa);
      run(bench, 30, () => ({ ...closed, pumpRatio: 1 }));
      expect(bench.state.air.manifoldPa).toBeGreaterThan(atmospherePa / 12.5);
      expect(bench.state.air.manifoldPa).toBeLessThan(1.02 * (atmospherePa / 12.5));
    },
  );

  test('full drive stops where the relief valve lets out what the pump brings, under the dead head', () => {
    const bench = benchWith(STAR);
    run(bench, 60, () => ({ ...closed, pumpRatio: 1, selector: 'pressure' }));
    expect(bench.state.air.manifoldPa - 100_600).toBeGreaterThan(200_000);
    expect(bench.state.air.manifoldPa - 100_600).toBeLessThan(220_000);
    expect(bench.state.air.ledger.reliefMol).toBeLessThan(0);
  });

  test('a tight seal holds vacuum, a leaking one loses it, a hose that is off has none', () => {
    const lossPa = (changes: Partial<Conditions>): number => {
      const bench = benchWith(STAR);
      run(bench, 3, () => ({
        ...closed,
        pumpRatio: bench.state.air.manifoldPa > 50_000 ? 0.5 : 0,
      }));
      const fromPa = bench.state.air.manifoldPa;
      run({ ...bench, conditions: { ...CALM, ...changes } }, 10, () => closed);
      return bench.state.air.manifoldPa - fromPa;
    };
    expect(lossPa({})).toBeGreaterThan(0);
    expect(lossPa({})).toBeLessThan(500);
    expect(lossPa({ sealLeak: true })).toBeGreaterThan(5_000);
    expect(lossPa({ hoseOff: true })).toBeGreaterThan(45_000);
  });
});

describe('filling, at the profile of the demo', () => {
  test.each([0.97, 1, 1.03])(
    'a star break with 10 mm legs is not clear after one cycle and clear after two (finger x %d)',
    (spread) => {
      const gaps = demoBreakOf(STAR).gaps.map((gap) => ({
        ...gap,
        fingerRatio: spread * gap.fingerRatio,
      }));
      const bench = benchWith(STAR, 296.15, 100_600, { gaps });
      testSeal(bench);
      runCycle(bench);
      expect(look(bench)).toBe(false);
      runCycle(bench);
      expect(look(bench)).toBe(true);
    },
  );

  test('a bullseye is clear after one cycle', () => {
    const bench = benchWith(BULLSEYE);
    runCycle(bench);
    expect(look(bench)).toBe(true);
  });

  test('a pane at 5 °C fills clearly more slowly', () => {
    const [warm, cold] = [benchWith(STAR), benchWith(STAR, 278.15)];
    for (const bench of [warm, cold]) runCycle(bench);
    expect(1 - filled(cold)).toBeGreaterThan(2 * (1 - filled(warm)));
    runCycle(cold);
    expect(look(cold)).toBe(false);
  });

  test('without vacuum the air that stays in keeps the break dark', () => {
    const bench = benchWith(STAR);
    run(bench, 20, () => ({ ...closed, pumpRatio: 0.5, selector: 'pressure' }));
    run(bench, 60, () => SAFE);
    expect(filled(bench)).toBeLessThan(0.8);
    expect(look(bench)).toBe(false);
  });

  test('without resin nothing fills and nothing bubbles', () => {
    const bench = benchWith(STAR);
    bench.state.setup.charged = false;
    expect(runCycle(bench)).toBe(0);
    expect(filled(bench)).toBe(0);
  });

  test('the pit once filled, the front stays where it is', () => {
    const bench = benchWith(STAR);
    runCycle(bench);
    bench.state.setup.injectorOff = true;
    bench.state.setup.pitFilled = true;
    const before = filled(bench);
    run(bench, 60, () => SAFE);
    expect(filled(bench)).toBe(before);
  });

  test('bubbles are seen for 30 to 80 s of vacuum, then no more', () => {
    const bench = benchWith(STAR);
    const { state } = bench;
    const pull = () => ({ ...closed, pumpRatio: state.air.manifoldPa > 25_000 ? 0.5 : 0 });
    const bubblingS = run(bench, 120, pull);
    expect(bubblingS).toBeGreaterThan(30);
    expect(bubblingS).toBeLessThan(80);
    expect(state.bubbling).toBe(false);
    expect(run(bench, 60, pull)).toBe(0);
  });
});
