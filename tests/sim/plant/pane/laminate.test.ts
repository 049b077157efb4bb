import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  createLaminate,
  enteredJPerM2,
  type Laminate,
  type LaminateOptions,
  type PaneSurroundings,
  roomAt,
  stepLaminate,
  storedJPerM2,
} from '../../../../sim/plant/pane/laminate.ts';
import {
  DEMO_PANE,
  FLOAT_GLASS,
  type Pane,
  paneResistanceM2KPerW,
} from '../../../../sim/plant/pane/pane.ts';

const ROOM_K = 293.15;
const WIDE: LaminateOptions = { spotRadiusM: Number.POSITIVE_INFINITY, cellsALayer: 4 };
const SPOT: LaminateOptions = { spotRadiusM: 0.03, cellsALayer: 4 };
const GUN: PaneSurroundings = { ...roomAt(ROOM_K), gunK: 363.15, gunWPerM2K: 80 };
const ALL_AT_ONCE: PaneSurroundings = {
  ...GUN,
  innerAirK: 303.15,
  outerRadiantK: 280,
  sunWPerM2: 300,
  lampWPerM2: 200,
  heaterWPerM2: 150,
};

function stepped(
  seconds: number,
  surroundings: PaneSurroundings,
  { pane = DEMO_PANE, options = SPOT, dtS = 0.05, startK = 283.15 } = {},
): Laminate {
  const laminate = createLaminate(pane, startK, options);
  const steps = Math.round(seconds / dtS);
  for (let i = 0; i < steps; i++) stepLaminate(laminate, surroundings, dtS);
  return laminate;
}

/** Exponent of the error: three runs, each twice as fine as the one before. */
const order = (coarse: number, middle: number, fine: number): number =>
  Math.log2((coarse - middle) / (middle - fine));

describe('the step', () => {
  test('is of second order in time at both faces, in the interlayer and in the pane around', () => {
    const [coarse, middle, fine] = [2, 1, 0.5].map((dtS) => stepped(20, ALL_AT_ONCE, { dtS }));
    for (const key of ['outerK', 'innerK', 'interlayerK', 'aroundK'] as const) {
      expect(order(coarse![key], middle![key], fine![key]), key).toBeCloseTo(2, 0.7);
    }
  });

  test('is of second order in space', () => {
    const [coarse, middle, fine] = [2, 4, 8].map((cellsALayer) =>
      stepped(20, ALL_AT_ONCE, { options: { ...SPOT, cellsALayer } }),
    );
    for (const key of ['outerK', 'innerK', 'interlayerK'] as const) {
      expect(order(coarse![key], middle![key], fine![key]), key).toBeCloseTo(2, 0.7);
    }
  });

  test('with four cells a layer is within 0.1 K of a grid eight times as fine', () => {
    const fine = stepped(5, ALL_AT_ONCE, { options: { ...SPOT, cellsALayer: 32 } });
    const demo = stepped(5, ALL_AT_ONCE);
    expect(Math.abs(demo.outerK - fine.outerK)).toBeLessThan(0.1);
    expect(Math.abs(demo.innerK - fine.innerK)).toBeLessThan(0.1);
  });

  test('stays quiet at steps of ten seconds and ends where small steps end', () => {
    const coarse = stepped(6000, GUN, { dtS: 10 });
    const fine = stepped(6000, GUN, { dtS: 0.5 });
    expect(coarse.outerK).toBeCloseTo(fine.outerK, 6);
    expect(coarse.innerK).toBeCloseTo(fine.innerK, 6);
  });
});

const kelvin = () => fc.double({ min: 253.15, max: 373.15, noNaN: true });
const film = () => fc.double({ min: 0, max: 150, noNaN: true });
const weather = fc.record<PaneSurroundings>({
  outerAirK: kelvin(),
  innerAirK: kelvin(),
  outerFilmWPerM2K: film(),
  innerFilmWPerM2K: film(),
  outerRadiantK: kelvin(),
  innerRadiantK: kelvin(),
  gunK: kelvin(),
  gunWPerM2K: film(),
  sunWPerM2: fc.constant(0),
  lampWPerM2: fc.constant(0),
  heaterWPerM2: fc.constant(0),
});
const light = () => fc.double({ min: 0, max: 1000, noNaN: true });

describe('energy', () => {
  test('that came in by all ways is what the spot has stored, whatever the weather and the step', () => {
    fc.assert(
      fc.property(
        weather,
        light(),
        light(),
        light(),
        fc.double({ min: 0.001, max: 5, noNaN: true }),
        (air, sunWPerM2, lampWPerM2, heaterWPerM2, dtS) => {
          const laminate = createLaminate(DEMO_PANE, 290, SPOT);
          const all = { ...air, sunWPerM2, lampWPerM2, heaterWPerM2 };
          for (let i = 0; i < 200; i++) stepLaminate(laminate, all, dtS);
          const { book } = laminate;
          const moved = Object.values(book).reduce((sum, j) => sum + Math.abs(j), 1);
          // Rounding only: 200 steps of 8200 J/(m2 K) at 300 K, eight operations of 2.2e-16 each.
          const rounding = 200 * 2.5e6 * 8 * 2.2e-16 + moved * 1e-13;
          expect(Math.abs(enteredJPerM2(laminate) - storedJPerM2(laminate))).toBeLessThan(rounding);
        },
      ),
      { numRuns: 100 },
    );
  });

  test('of sun, lamp and heater is booked as their power, share and time', () => {
    const { book } = stepped(100, { ...ALL_AT_ONCE, outerFilmWPerM2K: 0 });
    expect(book.sunJPerM2).toBeCloseTo(0.21 * 300 * 100, 6);
    expect(book.lampJPerM2).toBeCloseTo(0.7 * 200 * 100, 6);
    expect(book.heaterJPerM2).toBeCloseTo(150 * 100, 6);
    expect(book.outerAirJPerM2).toBe(0);
  });
});

describe('temperature', () => {
  test('never leaves the range of what surrounds the pane', () => {
    fc.assert(
      fc.property(
        weather,
        kelvin(),
        fc.double({ min: 0.005, max: 1, noNaN: true }),
        (air, startK, dtS) => {
          const laminate = createLaminate(DEMO_PANE, startK, SPOT);
          const all = [startK, air.outerAirK, air.innerAirK, air.outerRadiantK];
          all.push(air.innerRadiantK, air.gunK);
          const low = Math.min(...all) - 1e-9;
          const high = Math.max(...all) + 1e-9;
          let [lowest, highest] = [startK, startK];
          for (let i = 0; i < 150; i++) {
            stepLaminate(laminate, air, dtS);
            const { outerK, innerK, interlayerK, aroundK } = laminate;
            lowest = Math.min(lowest, outerK, innerK, interlayerK, aroundK);
            highest = Math.max(highest, outerK, innerK, interlayerK, aroundK);
          }
          expect(lowest).toBeGreaterThanOrEqual(low);
          expect(highest).toBeLessThanOrEqual(high);
        },
      ),
      { numRuns: 200 },
    );
  });

  test('ends at the line of thermal resistances in series', () => {
    const dark: Pane = { ...DEMO_PANE, emissivity: 0 };
    const air = {
      ...roomAt(293.15),
      outerAirK: 263.15,
      outerFilmWPerM2K: 25,
      innerFilmWPerM2K: 7.7,
    };
    const { outerK, innerK } = stepped(6000, air, { pane: dark, options: WIDE, dtS: 1 });
    const fluxWPerM2 = 30 / (1 / 25 + paneResistanceM2KPerW(dark) + 1 / 7.7);
    expect(outerK).toBeCloseTo(263.15 + fluxWPerM2 / 25, 8);
    expect(innerK).toBeCloseTo(293.15 - fluxWPerM2 / 7.7, 8);
  });

  test('of a symmetric pane in symmetric air is the same from both sides', () => {
    const ply = { ...FLOAT_GLASS, thicknessM: 2e-3, sunRatio: 0, lampRatio: 0 };
    const pane: Pane = { ...DEMO_PANE, layers: [ply, DEMO_PANE.layers[1]!, ply] };
    const { spot, outerK, innerK } = stepped(30, roomAt(330), { pane });
    expect(outerK - innerK).toBeCloseTo(0, 9);
    for (let i = 0; i < spot.cells; i++) {
      expect(spot.temperatureK[i]!).toBeCloseTo(spot.temperatureK[spot.cells - 1 - i]!, 9);
    }
    expect(spot.temperatureK[0]!).toBeGreaterThan(spot.temperatureK[5]! + 0.1);
  });

  test('of a pane at the temperature of its room does not move', () => {
    const { outerK, interlayerK, spotOverPaneK } = stepped(60, roomAt(283.15));
    expect(outerK).toBeCloseTo(283.15, 9);
    expect(interlayerK).toBeCloseTo(283.15, 9);
    expect(spotOverPaneK).toBeCloseTo(0, 9);
  });
});

describe('the spot', () => {
  test('under the air gun warms at the outer face first, at the inner face last', () => {
    const { outerK, interlayerK, innerK, gradientKPerM, aroundK } = stepped(2, GUN, {
      startK: ROOM_K,
    });
    expect(outerK).toBeGreaterThan(interlayerK + 2);
    expect(interlayerK).toBeGreaterThan(innerK);
    expect(innerK).toBeGreaterThan(ROOM_K);
    expect(gradientKPerM).toBeCloseTo((outerK - innerK) / 4.46e-3, 6);
    expect(aroundK).toBeCloseTo(ROOM_K, 9);
  });

  test('with nothing on it stays equal to the pane around, in moving air and sun too', () => {
    const air = { ...roomAt(310), outerFilmWPerM2K: 20, outerRadiantK: 270, sunWPerM2: 800 };
    const laminate = stepped(300, air);
    expect(laminate.spotOverPaneK).toBeCloseTo(0, 9);
    expect(laminate.book.aroundJPerM2).toBeCloseTo(0, 5);
    expect(laminate.aroundK).toBeGreaterThan(285);
  });

  test('loses less sideways the larger it is', () => {
    const overPaneK = [0.01, 0.02, 0.04, Number.POSITIVE_INFINITY].map(
      (spotRadiusM) =>
        stepped(600, GUN, { startK: ROOM_K, options: { ...SPOT, spotRadiusM } }).spotOverPaneK,
    );
    for (let i = 1; i < overPaneK.length; i++) {
      expect(overPaneK[i]!).toBeGreaterThan(overPaneK[i - 1]! + 1);
    }
  });

  test('under the lamp is warmest in the interlayer, which stops most of it, and leaves the pane around alone', () => {
    const lit = { ...roomAt(ROOM_K), lampWPerM2: 500, heaterWPerM2: 10 };
    const { outerK, interlayerK, innerK, aroundK } = stepped(60, lit, { startK: ROOM_K });
    expect(interlayerK).toBeGreaterThan(outerK);
    expect(interlayerK).toBeGreaterThan(innerK);
    expect(innerK).toBeGreaterThan(ROOM_K + 1);
    expect(aroundK).toBeCloseTo(ROOM_K, 9);
  });
});
