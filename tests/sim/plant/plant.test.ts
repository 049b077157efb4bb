import { describe, expect, test } from 'vitest';
import { standardAtmospherePa } from '../../../sim/plant/atmosphere.ts';
import type { Gap } from '../../../sim/plant/break-filling.ts';
import {
  type Conditions,
  createPlantState,
  demoResin,
  filledRatio,
  looksClear,
  type Place,
  type PlantState,
  stepPlant,
} from '../../../sim/plant/plant.ts';
import { breakGeometryOf } from '../../../sim/scenario.ts';
import { type Actuators, SAFE } from '../../../src/frame.ts';
import { BULLSEYE, STAR } from '../lock-step.ts';

const CALM: Conditions = {
  airK: 296.15,
  lampAgeRatio: 1,
  glassHeatW: 0,
  heatSinkHeatW: 0,
  sealLeak: false,
  hoseOff: false,
  supplyV: null,
  pumpFlowRatio: 1,
};

interface Bench {
  readonly state: PlantState;
  readonly place: Place;
  readonly conditions: Conditions;
}

function benchWith(gap: Gap, glassK = 296.15, atmospherePa = 100_600): Bench {
  const place = { atmospherePa, gap, resin: demoResin(0.05) };
  const state = createPlantState(place, glassK, glassK);
  Object.assign(state.bench, { sealed: true, hoseOn: true, charged: true });
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
    pumpRatio: state.chamberPa > 25_000 ? 0.5 : 0,
  }));
  run(bench, 150, () => ({
    ...closed,
    selector: 'pressure',
    pumpRatio: state.chamberPa < aimPa ? 0.5 : 0,
  }));
  run(bench, 5, () => SAFE);
  return bubblingS;
}

const look = ({ state, place }: Bench) => looksClear(state, place);
const filled = ({ state, place }: Bench) => filledRatio(state, place);

describe('air', () => {
  test('a vented chamber stands at the atmosphere, to the pascal', () => {
    const bench = benchWith(breakGeometryOf(STAR));
    run(bench, 2, () => ({ ...SAFE, pumpRatio: 0 }));
    expect(bench.state.chamberPa).toBeCloseTo(100_600, 0);
  });

  test.each([0, 2000])(
    'full drive reaches one part in 12.5 of the atmosphere at %i m',
    (heightM) => {
      const atmospherePa = standardAtmospherePa(heightM);
      const bench = benchWith(breakGeometryOf(STAR), 296.15, atmospherePa);
      run(bench, 30, () => ({ ...closed, pumpRatio: 1 }));
      expect(bench.state.chamberPa).toBeGreaterThan(atmospherePa / 12.5);
      expect(bench.state.chamberPa).toBeLessThan(1.02 * (atmospherePa / 12.5));
    },
  );

  test('full drive comes to rest just under the dead head', () => {
    const bench = benchWith(breakGeometryOf(STAR));
    run(bench, 60, () => ({ ...closed, pumpRatio: 1, selector: 'pressure' }));
    expect(bench.state.chamberPa - 100_600).toBeLessThan(230_000);
    expect(bench.state.chamberPa - 100_600).toBeGreaterThan(225_000);
  });

  test('a tight seal holds vacuum, a leaking one loses it, a hose that is off has none', () => {
    const lossPa = (changes: Partial<Conditions>): number => {
      const bench = benchWith(breakGeometryOf(STAR));
      bench.state.chamberPa = 50_000;
      run({ ...bench, conditions: { ...CALM, ...changes } }, 10, () => closed);
      return bench.state.chamberPa - 50_000;
    };
    expect(lossPa({})).toBeGreaterThan(0);
    expect(lossPa({})).toBeLessThan(500);
    expect(lossPa({ sealLeak: true })).toBeGreaterThan(5_000);
    expect(lossPa({ hoseOff: true })).toBeGreaterThan(50_000);
  });
});

describe('filling, at the profile of the demo', () => {
  const star = breakGeometryOf(STAR);

  test.each([0.85, 1, 1.15])(
    'a star break with 10 mm legs is not clear after one cycle and clear after two (escape x %d)',
    (spread) => {
      const bench = benchWith({ ...star, escapeS: spread * star.escapeS });
      runCycle(bench);
      expect(look(bench)).toBe(false);
      runCycle(bench);
      expect(look(bench)).toBe(true);
    },
  );

  test('a bullseye is clear after one cycle', () => {
    const bench = benchWith(breakGeometryOf(BULLSEYE));
    runCycle(bench);
    expect(look(bench)).toBe(true);
  });

  test('a pane at 5 °C fills clearly more slowly', () => {
    const [warm, cold] = [benchWith(star), benchWith(star, 278.15)];
    for (const bench of [warm, cold]) runCycle(bench);
    expect(1 - filled(cold)).toBeGreaterThan(2 * (1 - filled(warm)));
    runCycle(cold);
    expect(look(cold)).toBe(false);
  });

  test('without vacuum the air that stays in keeps the break dark', () => {
    const bench = benchWith(star);
    run(bench, 20, () => ({ ...closed, pumpRatio: 0.5, selector: 'pressure' }));
    const pressed = filled(bench);
    run(bench, 60, () => SAFE);
    expect(filled(bench)).toBeLessThan(pressed);
    expect(look(bench)).toBe(false);
  });

  test('without resin nothing fills and nothing bubbles', () => {
    const bench = benchWith(star);
    bench.state.bench.charged = false;
    expect(runCycle(bench)).toBe(0);
    expect(filled(bench)).toBe(0);
  });

  test('the pit once filled, the front stays where it is', () => {
    const bench = benchWith(star);
    runCycle(bench);
    bench.state.bench.pitFilled = true;
    const before = filled(bench);
    run(bench, 60, () => SAFE);
    expect(filled(bench)).toBe(before);
  });

  test('bubbles are seen for 30 to 80 s of vacuum, then no more', () => {
    const bench = benchWith(star);
    const { state } = bench;
    const pull = () => ({ ...closed, pumpRatio: state.chamberPa > 25_000 ? 0.5 : 0 });
    const bubblingS = run(bench, 120, pull);
    expect(bubblingS).toBeGreaterThan(30);
    expect(bubblingS).toBeLessThan(80);
    expect(state.bubbling).toBe(false);
    expect(run(bench, 60, pull)).toBe(0);
  });
});
