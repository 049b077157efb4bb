import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type HeatAndLight,
  LAMP,
  type Surroundings,
  stepHeatAndLight,
} from '../../../sim/plant/heat-and-light.ts';

const ROOM: Surroundings = { airK: 295.15, lampAgeRatio: 1, glassHeatW: 0, heatSinkHeatW: 0 };

function run(
  seconds: number,
  driveRatio: number,
  around = ROOM,
  start: Partial<HeatAndLight> = {},
) {
  const state: HeatAndLight = {
    glassK: 295.15,
    heatSinkK: 295.15,
    lampRatio: 0,
    irradianceWPerM2: 0,
    doseJPerM2: 0,
    ...start,
  };
  for (let i = 0; i < seconds * 1000; i++) stepHeatAndLight(state, driveRatio, around, 0.001);
  return state;
}

describe('the lamp', () => {
  test('gives its rated irradiance at its rated heat-sink temperature', () => {
    const lit = run(0.001, 1, ROOM, { lampRatio: 1, heatSinkK: LAMP.ratedHeatSinkK });
    expect(lit.irradianceWPerM2).toBeCloseTo(200, 2);
  });

  test('loses 0.3 % a kelvin of its heat sink, and what age has taken', () => {
    const hotK = LAMP.ratedHeatSinkK + 20;
    const hot = run(0.001, 1, ROOM, { lampRatio: 1, heatSinkK: hotK });
    expect(hot.irradianceWPerM2).toBeCloseTo(200 * 0.94, 2);
    const aged = run(0.001, 1, { ...ROOM, lampAgeRatio: 0.5 }, { lampRatio: 1, heatSinkK: hotK });
    expect(aged.irradianceWPerM2).toBeCloseTo(100 * 0.94, 2);
  });

  test('is dark within half a second of being put off, and stays so', () => {
    const { doseJPerM2, irradianceWPerM2 } = run(0.5, 0, ROOM, { lampRatio: 1 });
    expect(irradianceWPerM2).toBeLessThan(0.02);
    expect(doseJPerM2).toBeLessThan(200 * 0.06);
    expect(run(2, 0, ROOM, { lampRatio: 1 }).irradianceWPerM2).toBe(0);
  });

  test('droops as its heat sink warms up over a cure', () => {
    const early = run(2, 1);
    const late = run(300, 1);
    expect(late.heatSinkK).toBeGreaterThan(early.heatSinkK + 10);
    expect(late.irradianceWPerM2).toBeLessThan(0.97 * early.irradianceWPerM2);
  });

  test('adds irradiance times time to the true dose, which never falls', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 50 }),
        (drives) => {
          const state = run(0, 0);
          let sum = 0;
          for (const drive of drives) {
            const before = state.doseJPerM2;
            stepHeatAndLight(state, drive, ROOM, 0.001);
            sum += state.irradianceWPerM2 * 0.001;
            expect(state.doseJPerM2).toBeGreaterThanOrEqual(before);
          }
          expect(state.doseJPerM2).toBeCloseTo(sum, 9);
        },
      ),
    );
  });
});

describe('the glass', () => {
  test('stays at the temperature of the air and goes back to it from either side', () => {
    expect(run(100, 0).glassK).toBe(295.15);
    const from = (glassK: number) => Math.abs(run(200, 0, ROOM, { glassK }).glassK - 295.15);
    expect(from(315.15)).toBeLessThan(20 * 0.4);
    expect(from(275.15)).toBeCloseTo(from(315.15), 6);
  });

  test('warms by a few kelvin in a cure and by more under the sun', () => {
    const cured = run(300, 1).glassK - 295.15;
    expect(cured).toBeGreaterThan(1);
    expect(cured).toBeLessThan(5);
    expect(run(300, 1, { ...ROOM, glassHeatW: 5 }).glassK - 295.15).toBeGreaterThan(20);
  });
});
