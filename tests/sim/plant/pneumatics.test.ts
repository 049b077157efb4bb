import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  compressionKgPerS,
  evacuationKgPerS,
  GAS_CONSTANT_AIR,
  type Pump,
  type Restriction,
  restrictionKgPerS,
  stepChamberPa,
  stepPumpSpeed,
} from '../../../sim/plant/pneumatics.ts';

const VALVE: Restriction = { sonicConductance: 2e-9, criticalRatio: 0.3 };
const PUMP: Pump = {
  freeFlowM3PerS: 2.5e-5,
  greatestRatio: 12.5,
  deadHeadPa: 230_000,
  stallRatio: 0.08,
  startLagS: 0.08,
  ratedV: 12,
};
const GAS_K = 293.15;
const VOLUME_M3 = 30e-6;
const pressure = fc.double({ min: 1, max: 1e6, noNaN: true });
const flow = (upPa: number, downPa: number) => restrictionKgPerS(VALVE, upPa, downPa, GAS_K);

describe('a restriction', () => {
  test('passes nothing between equal pressures', () => {
    fc.assert(fc.property(pressure, (pa) => void expect(Math.abs(flow(pa, pa))).toBe(0)));
  });

  test('passes as much one way as the other', () => {
    fc.assert(
      fc.property(pressure, pressure, (a, b) => void expect(flow(a, b) + flow(b, a)).toBe(0)),
    );
  });

  test('never flows from low to high', () => {
    fc.assert(
      fc.property(pressure, pressure, (a, b) => {
        expect(Math.sign(flow(a, b)) * Math.sign(a - b)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  test('passes more the lower the downstream pressure, until it is choked', () => {
    fc.assert(
      fc.property(
        pressure,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (upPa, r1, r2) => {
          const [low, high] = r1 < r2 ? [r1, r2] : [r2, r1];
          expect(flow(upPa, low * upPa)).toBeGreaterThanOrEqual(flow(upPa, high * upPa));
        },
      ),
    );
    expect(flow(1e5, 0.29e5)).toBe(flow(1e5, 0));
    expect(flow(1e5, 0.4e5)).toBeLessThan(flow(1e5, 0));
  });

  test('has no step where it begins to choke', () => {
    expect(flow(1e5, 0.30001e5) / flow(1e5, 0.29999e5)).toBeCloseTo(1, 9);
  });
});

describe('the pump', () => {
  test('never lets gas back, at any speed and pressure', () => {
    fc.assert(
      fc.property(pressure, fc.double({ min: 0, max: 1.2, noNaN: true }), (pa, speed) => {
        expect(evacuationKgPerS(PUMP, speed, pa, 101_325, GAS_K)).toBeGreaterThanOrEqual(0);
        expect(compressionKgPerS(PUMP, speed, pa, 101_325, GAS_K)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  test('moves its free flow against no difference of pressure', () => {
    const expected = (2.5e-5 * 101_325) / (GAS_CONSTANT_AIR * GAS_K);
    expect(evacuationKgPerS(PUMP, 1, 101_325, 101_325, GAS_K)).toBeCloseTo(expected, 15);
    expect(compressionKgPerS(PUMP, 1, 101_325, 101_325, GAS_K)).toBeCloseTo(expected, 15);
  });

  test.each([101_325, 79_495])(
    'draws down to a ratio and not further, at %i Pa',
    (atmospherePa) => {
      const lowestPa = atmospherePa / 12.5;
      expect(evacuationKgPerS(PUMP, 1, 1.01 * lowestPa, atmospherePa, GAS_K)).toBeGreaterThan(0);
      expect(evacuationKgPerS(PUMP, 1, 0.99 * lowestPa, atmospherePa, GAS_K)).toBe(0);
    },
  );

  test('presses up to its dead head and not further', () => {
    expect(compressionKgPerS(PUMP, 1, 101_325 + 229_000, 101_325, GAS_K)).toBeGreaterThan(0);
    expect(compressionKgPerS(PUMP, 1, 101_325 + 231_000, 101_325, GAS_K)).toBe(0);
  });

  test('stands still under its stall drive and turns in proportion above it', () => {
    const settled = (drive: number, supplyV: number): number => {
      let speed = 0;
      for (let i = 0; i < 2000; i++) speed = stepPumpSpeed(PUMP, speed, drive, supplyV, 0.001);
      return speed;
    };
    expect(settled(0.079, 12)).toBe(0);
    expect(settled(0.08, 12)).toBeCloseTo(0.08, 9);
    expect(settled(0.5, 12)).toBeCloseTo(0.5, 9);
    expect(settled(0.5, 9)).toBeCloseTo(0.375, 9);
  });

  test('has reached 63 % of its speed after its start-up lag', () => {
    let speed = 0;
    for (let i = 0; i < 80; i++) speed = stepPumpSpeed(PUMP, speed, 1, 12, 0.001);
    // First-order step response, 1 - 1/e; a step of 1 ms in 80 ms is worth 0.3 %.
    expect(Math.abs(speed - (1 - Math.exp(-1)))).toBeLessThan(0.003);
  });
});

describe('the chamber', () => {
  test('keeps its pressure when nothing flows', () => {
    fc.assert(
      fc.property(pressure, pressure, (pa, atmospherePa) => {
        expect(stepChamberPa(pa, atmospherePa, 0, 0, VOLUME_M3, GAS_K, 0.001)).toBe(pa);
      }),
    );
  });

  test('gains the mass that is pumped in, to the last digit', () => {
    fc.assert(
      fc.property(pressure, fc.double({ min: -1e-4, max: 1e-4, noNaN: true }), (pa, kgPerS) => {
        const after = stepChamberPa(pa, 101_325, kgPerS, 0, VOLUME_M3, GAS_K, 0.001);
        const gained = ((after - pa) * VOLUME_M3) / (GAS_CONSTANT_AIR * GAS_K);
        expect(gained).toBeCloseTo(kgPerS * 0.001, 15);
      }),
    );
  });

  test('gains the mass that has flowed through an opening, as steps grow short', () => {
    let pa = 30_000;
    let throughKg = 0;
    for (let i = 0; i < 10_000; i++) {
      const kgPerS = flow(101_325, pa);
      throughKg += kgPerS * 1e-5;
      pa = stepChamberPa(pa, 101_325, 0, kgPerS, VOLUME_M3, GAS_K, 1e-5);
    }
    const gainedKg = ((pa - 30_000) * VOLUME_M3) / (GAS_CONSTANT_AIR * GAS_K);
    expect(gainedKg).toBeGreaterThan(1e-5);
    // 10 microseconds in a time constant of 0.15 s, and steeper at the end.
    expect(Math.abs(gainedKg / throughKg - 1)).toBeLessThan(1e-3);
  });

  test('comes to rest at the atmosphere without ever crossing it, however large the opening', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1_000, max: 400_000, noNaN: true }),
        fc.double({ min: -14, max: -6, noNaN: true }),
        (startPa, exponent) => {
          const opening = { sonicConductance: 10 ** exponent, criticalRatio: 0.3 };
          const side = Math.sign(101_325 - startPa);
          let pa = startPa;
          for (let i = 0; i < 50; i++) {
            const kgPerS = restrictionKgPerS(opening, 101_325, pa, GAS_K);
            pa = stepChamberPa(pa, 101_325, 0, kgPerS, VOLUME_M3, GAS_K, 0.001);
            expect((101_325 - pa) * side).toBeGreaterThanOrEqual(-1e-6);
          }
        },
      ),
    );
  });
});
