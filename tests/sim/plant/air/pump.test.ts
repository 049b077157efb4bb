import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEMO_AIR_UNIT } from '../../../../sim/plant/air/air-unit.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from '../../../../sim/plant/air/gas-constant.ts';
import {
  compressionMolPerS,
  compressionSlopeMolPerSPa,
  evacuationMolPerS,
  evacuationSlopeMolPerSPa,
  stepPumpSpeed,
} from '../../../../sim/plant/air/pump.ts';

const PUMP = DEMO_AIR_UNIT.pump;
const AIR_PA = 101_325;
const GAS_K = 293.15;
const pressure = fc.double({ min: 1, max: 1e6, noNaN: true });
const speed = fc.double({ min: 0, max: 1.2, noNaN: true });
const draws = (pa: number, ratio = 1) => evacuationMolPerS(PUMP, ratio, pa, AIR_PA, GAS_K);
const presses = (pa: number, ratio = 1) => compressionMolPerS(PUMP, ratio, pa, AIR_PA, GAS_K);

function settled(drive: number, supplyV: number): number {
  let ratio = 0;
  for (let i = 0; i < 5000; i++) ratio = stepPumpSpeed(PUMP, ratio, drive, supplyV, 0.001);
  return ratio;
}

describe('the pump', () => {
  test('never lets gas back, at any speed and pressure', () => {
    fc.assert(
      fc.property(pressure, speed, (pa, ratio) => {
        expect(draws(pa, ratio)).toBeGreaterThanOrEqual(0);
        expect(presses(pa, ratio)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  test('moves its free flow against no difference of pressure', () => {
    const expected = (2.5e-5 * AIR_PA) / (GAS_CONSTANT_J_PER_MOL_K * GAS_K);
    expect(draws(AIR_PA)).toBeCloseTo(expected, 12);
    expect(presses(AIR_PA)).toBeCloseTo(expected, 12);
  });

  test('never presses more than its free flow, nor draws more volume', () => {
    const free = presses(AIR_PA);
    expect(presses(50_000)).toBeCloseTo(free, 12);
    expect(draws(2 * AIR_PA)).toBeCloseTo(2 * free, 12);
  });

  test.each([101_325, 79_495])('draws down to a ratio and not further, at %i Pa', (outsidePa) => {
    const lowestPa = outsidePa / 12.5;
    expect(evacuationMolPerS(PUMP, 1, 1.01 * lowestPa, outsidePa, GAS_K)).toBeGreaterThan(0);
    expect(evacuationMolPerS(PUMP, 1, 0.99 * lowestPa, outsidePa, GAS_K)).toBe(0);
  });

  test('presses up to its dead head and not further', () => {
    expect(presses(AIR_PA + 229_000)).toBeGreaterThan(0);
    expect(presses(AIR_PA + 231_000)).toBe(0);
    expect(presses(AIR_PA + 115_000)).toBeCloseTo(presses(AIR_PA) / 2, 12);
  });

  test('has the slopes of its curves', () => {
    for (const pa of [5_000, 9_000, 50_000, 99_000, 150_000, 300_000, 400_000]) {
      const drawn = (draws(pa + 10) - draws(pa - 10)) / 20;
      const pressed = (presses(pa + 10) - presses(pa - 10)) / 20;
      const scale = draws(AIR_PA) / AIR_PA;
      const drawnSlope = evacuationSlopeMolPerSPa(PUMP, 1, pa, AIR_PA, GAS_K);
      const pressedSlope = compressionSlopeMolPerSPa(PUMP, 1, pa, AIR_PA, GAS_K);
      expect(Math.abs(drawnSlope - drawn) / scale, `drawing at ${pa}`).toBeLessThan(1e-9);
      expect(Math.abs(pressedSlope - pressed) / scale, `pressing at ${pa}`).toBeLessThan(1e-9);
    }
  });
});

describe('the motor', () => {
  test('stands still under its stall voltage and turns in proportion above it', () => {
    expect(settled(0.079, 12)).toBe(0);
    expect(settled(0.08, 12)).toBeCloseTo(0.08, 9);
    expect(settled(0.5, 12)).toBeCloseTo(0.5, 9);
    expect(settled(0.5, 9)).toBeCloseTo(0.375, 9);
  });

  test('stalls at a drive that a sagging supply leaves too little voltage', () => {
    expect(settled(0.1, 12)).toBeGreaterThan(0);
    expect(settled(0.1, 9)).toBe(0);
  });

  test('has reached 1 - 1/e of its speed after its start-up lag, whatever the step', () => {
    for (const steps of [1, 8, 80]) {
      let ratio = 0;
      for (let i = 0; i < steps; i++) ratio = stepPumpSpeed(PUMP, ratio, 1, 12, 0.08 / steps);
      expect(ratio).toBeCloseTo(1 - Math.exp(-1), 12);
    }
  });

  test('comes to a full stop within a second of being switched off', () => {
    let ratio = 1;
    for (let i = 0; i < 1000; i++) ratio = stepPumpSpeed(PUMP, ratio, 0, 12, 0.001);
    expect(ratio).toBe(0);
  });
});
