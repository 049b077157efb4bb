import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  createLampState,
  DEMO_LAMP,
  type LampDrive,
  type LampState,
  lampSchema,
  stepLamp,
  underFilm,
} from '../../../../sim/plant/light/lamp.ts';

const ROOM: LampDrive = {
  driveRatio: 1,
  airK: 295.15,
  ageRatio: 1,
  heatSinkHeatW: 0,
  distanceM: 0.02,
};
const OFF: LampDrive = { ...ROOM, driveRatio: 0 };

function run(
  seconds: number,
  drive: LampDrive,
  start: Partial<LampState> = {},
  dtS = 0.05,
): LampState {
  const state: LampState = { ...createLampState(ROOM.airK), ...start };
  for (let i = 0; i < Math.round(seconds / dtS); i++) stepLamp(state, DEMO_LAMP, drive, dtS);
  return state;
}
const lit = (drive: Partial<LampDrive> = {}, heatSinkK = 298.15) =>
  run(1e-6, { ...ROOM, ...drive }, { outputRatio: 1, heatSinkK }, 1e-6).irradianceWPerM2;

describe('light', () => {
  test('is 200 W/m² at the glass at the rated heat sink', () => {
    expect(lit()).toBeCloseTo(200, 4);
  });

  test('droops by 0.3 % a kelvin, ages, and is never negative', () => {
    expect(lit({}, 318.15)).toBeCloseTo(200 * 0.94, 4);
    expect(lit({ ageRatio: 0.5 }, 318.15)).toBeCloseTo(100 * 0.94, 4);
    expect(lit({}, 800)).toBe(0);
    expect(run(0.05, ROOM, { outputRatio: 1, heatSinkK: 800 }).doseJPerM2).toBe(0);
  });

  test('falls with the square of the distance', () => {
    expect(lit({ distanceM: 0.04 })).toBeCloseTo(50, 4);
    expect(lit({ distanceM: 0.01 })).toBeCloseTo(800, 4);
  });

  test('loses a seventh in the cover film', () => {
    expect(underFilm(DEMO_LAMP, 200, true)).toBeCloseTo(171.9, 1);
    expect(underFilm(DEMO_LAMP, 200, false)).toBe(200);
  });

  test('comes on to 1 - 1/e in the turn-on time and is gone half a second after it is put off', () => {
    expect(run(0.05, ROOM).outputRatio).toBeCloseTo(1 - 1 / Math.E, 12);
    const off = run(0.5, OFF, { outputRatio: 1 });
    expect(off.irradianceWPerM2).toBeLessThan(0.02);
    // The light that still comes is that of one turn-on time.
    expect(off.doseJPerM2).toBeCloseTo(200 * 0.05 * (1 + 0.003 * 3), 1);
    expect(run(2, OFF, { outputRatio: 1 }).irradianceWPerM2).toBe(0);
  });
});

describe('the heat sink', () => {
  test('settles at electric power over loss above the air, with the time of its own', () => {
    expect(run(3000, ROOM).heatSinkK - 295.15).toBeCloseTo(30, 6);
    // From a steady lamp: 1 - 1/e after 60/0.4 s.
    expect(run(150, ROOM, { outputRatio: 1 }).heatSinkK - 295.15).toBeCloseTo(
      30 * (1 - 1 / Math.E),
      9,
    );
  });

  test('gets hotter when its fan takes less away', () => {
    expect(run(3000, { ...ROOM, heatSinkHeatW: 8 }).heatSinkK - 295.15).toBeCloseTo(50, 6);
  });

  test('keeps what came in less what the air took, whatever is driven', () => {
    fc.assert(
      fc.property(drives(), (steps) => {
        const state = createLampState(ROOM.airK);
        for (const [driveRatio, airK, heatSinkHeatW, dtS] of steps) {
          stepLamp(state, DEMO_LAMP, { ...ROOM, driveRatio, airK, heatSinkHeatW }, dtS);
        }
        const storedJ = 60 * (state.heatSinkK - ROOM.airK);
        const moved = 1 + state.heatInJ + Math.abs(state.heatLostJ);
        expect(Math.abs(storedJ - (state.heatInJ - state.heatLostJ)) / moved).toBeLessThan(1e-9);
      }),
    );
  });
});

describe('a step', () => {
  test('may be as long as the drive is constant: one of 40 ms is forty of 1 ms', () => {
    fc.assert(
      fc.property(drives(), (steps) => {
        const coarse = createLampState(ROOM.airK);
        const fine = createLampState(ROOM.airK);
        for (const [driveRatio, airK, heatSinkHeatW] of steps) {
          const drive = { ...ROOM, driveRatio, airK, heatSinkHeatW };
          stepLamp(coarse, DEMO_LAMP, drive, 0.04);
          for (let i = 0; i < 40; i++) stepLamp(fine, DEMO_LAMP, drive, 0.001);
        }
        for (const key of ['outputRatio', 'heatSinkK', 'doseJPerM2', 'heatInJ'] as const) {
          // Output that is called dark may be cut off a little earlier in the fine run.
          expect(Math.abs(coarse[key] - fine[key])).toBeLessThan(1e-7);
        }
      }),
    );
  });

  test('adds its mean irradiance times its length to the dose, which never falls', () => {
    fc.assert(
      fc.property(drives(), (steps) => {
        const state = createLampState(ROOM.airK);
        let sum = 0;
        for (const [driveRatio, airK, heatSinkHeatW, dtS] of steps) {
          const before = state.doseJPerM2;
          stepLamp(state, DEMO_LAMP, { ...ROOM, driveRatio, airK, heatSinkHeatW }, dtS);
          sum += state.meanWPerM2 * dtS;
          expect(state.doseJPerM2).toBeGreaterThanOrEqual(before);
        }
        expect(state.doseJPerM2).toBeCloseTo(sum, 7);
      }),
    );
  });

  test('agrees on the dose with a fine sum of the irradiance', () => {
    const state = createLampState(ROOM.airK);
    let sum = 0;
    let last = 0;
    for (let i = 0; i < 10_000; i++) {
      stepLamp(state, DEMO_LAMP, ROOM, 1e-4);
      sum += ((last + state.irradianceWPerM2) / 2) * 1e-4;
      last = state.irradianceWPerM2;
    }
    // The trapezoidal sum is off by h^2/12 times the change of slope, 200/0.05 W/m2/s.
    expect(Math.abs(state.doseJPerM2 - sum)).toBeLessThan((1.1 * 1e-8 * 4000) / 12);
  });
});

test('a lamp’s settings out of range are refused', () => {
  const file = {
    fullMWPerCm2: 20,
    electricW: 12,
    turnOnS: 0.05,
    droopPerK: 0.003,
    ratedHeatSinkC: 25,
    referenceDistanceMm: 20,
    heatSinkJPerK: 60,
    heatSinkWPerK: 0.4,
    filmTransmission: 0.9,
  };
  expect(lampSchema.parse(file)).toMatchObject({ fullWPerM2: 200, referenceDistanceM: 0.02 });
  for (const wrong of [{ turnOnS: 3 }, { heatSinkJPerK: 1 }, { filmTransmission: 1.1 }]) {
    expect(lampSchema.safeParse({ ...file, ...wrong }).success).toBe(false);
  }
  expect(lampSchema.safeParse({ ...file, colour: 'blue' }).success).toBe(false);
});

function drives() {
  const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  return fc.array(
    fc.tuple(between(0, 1), between(260, 320), between(0, 10), between(0.001, 0.05)),
    { minLength: 1, maxLength: 30 },
  );
}
