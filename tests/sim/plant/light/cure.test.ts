import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  CURE_DEPTHS_M,
  type CureState,
  type CuringLight,
  createCureState,
  curedDepthM,
  curingSchema,
  DEMO_CURING,
  gelled,
  stepCure,
  surfaceTacky,
  workingCurveM,
} from '../../../../sim/plant/light/cure.ts';

const LAMP: CuringLight = { irradianceWPerM2: 200, ambientUvWPerM2: 0, covered: true };
const OPEN: CuringLight = { ...LAMP, covered: false };
const DARK: CuringLight = { ...LAMP, irradianceWPerM2: 0 };

function run(seconds: number, light: CuringLight, dtS = 0.05): CureState {
  const state = createCureState();
  for (let i = 0; i < Math.round(seconds / dtS); i++) stepCure(state, DEMO_CURING, light, dtS);
  return state;
}
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const lights = fc.array(
  fc.record({
    irradianceWPerM2: between(0, 400),
    ambientUvWPerM2: between(0, 60),
    covered: fc.boolean(),
  }),
  { minLength: 1, maxLength: 30 },
);

describe('conversion', () => {
  test('starts when the light has used up the oxygen, later the deeper', () => {
    // 100 J/m2 at 200 W/m2: half a second at the face, e times that where 1/e of the light comes.
    expect(run(0.49, LAMP, 0.01).conversion[0]).toBe(0);
    expect(run(0.52, LAMP, 0.01).conversion[0]).toBeGreaterThan(0);
    expect(CURE_DEPTHS_M[2]).toBe(0.001);
    expect(run(1.35, LAMP, 0.01).conversion[2]).toBe(0);
    expect(run(1.37, LAMP, 0.01).conversion[2]).toBeGreaterThan(0);
  });

  test('is then 1 - exp(-k sqrt(I) t)', () => {
    const state = run(30, LAMP);
    const rate = (wPerM2: number) => 0.01656 * Math.sqrt(wPerM2 / 100);
    expect(state.conversion[0]).toBeCloseTo(1 - Math.exp(-rate(200) * 29.5), 10);
    const deep = 200 * Math.exp(-1);
    expect(state.conversion[2]).toBeCloseTo(1 - Math.exp(-rate(deep) * (30 - 100 / deep)), 10);
  });

  test('gets nowhere in the dark', () => {
    expect(run(1000, DARK)).toEqual(createCureState());
  });

  test('never falls, stays within 0 and 1, and is never more where less light comes', () => {
    fc.assert(
      fc.property(lights, (steps) => {
        const state = createCureState();
        for (const light of steps) {
          const before = [...state.conversion];
          stepCure(state, DEMO_CURING, light, 0.05);
          state.conversion.forEach((share, i) => {
            expect(share).toBeGreaterThanOrEqual(before[i] as number);
            expect(share).toBeLessThanOrEqual(1);
            expect(state.oxygenRatio[i]).toBeGreaterThanOrEqual(0);
            expect(state.oxygenRatio[i]).toBeLessThanOrEqual(1);
            if (i > 1) expect(share).toBeLessThanOrEqual(state.conversion[i - 1] as number);
          });
        }
      }),
    );
  });

  test('does not depend on how constant light is cut into steps', () => {
    fc.assert(
      fc.property(between(1, 1000), fc.boolean(), (irradianceWPerM2, covered) => {
        const light = { irradianceWPerM2, ambientUvWPerM2: 0, covered };
        const coarse = run(2, light, 0.05);
        const fine = run(2, light, 0.001);
        coarse.conversion.forEach((share, i) => {
          expect(share).toBeCloseTo(fine.conversion[i] as number, 10);
          expect(coarse.oxygenRatio[i]).toBeCloseTo(fine.oxygenRatio[i] as number, 10);
        });
      }),
    );
  });

  test('counts daylight like the lamp, by its effect on the initiator', () => {
    const day = run(20, { irradianceWPerM2: 0, ambientUvWPerM2: 50, covered: true });
    const lamp = run(20, { ...LAMP, irradianceWPerM2: 50 * DEMO_CURING.daylightEffect });
    expect(day).toEqual(lamp);
    // By hand: 0.69533 over the daylight's six lines, 1 - 15 nm x 0.05 / 30 nm at the lamp's peak.
    expect(DEMO_CURING.daylightEffect).toBeCloseTo(0.69533 / 0.975, 3);
  });
});

describe('an open face', () => {
  test('stays tacky at the lamp’s irradiance, while the resin below it sets', () => {
    const open = run(300, OPEN);
    expect(surfaceTacky(open, DEMO_CURING)).toBe(true);
    expect(open.conversion[0]).toBe(0);
    expect(gelled(open, DEMO_CURING)).toBe(true);
    expect(surfaceTacky(run(300, LAMP), DEMO_CURING)).toBe(false);
  });

  test('keeps the oxygen at which the air gives as much as the light uses', () => {
    // 1 - I/(E r) = 1 - 200/(100 * 4).
    expect(run(10, OPEN).oxygenRatio[0]).toBeCloseTo(0.5, 9);
  });

  test('cures without a film where the light outruns the air, above E r = 400 W/m²', () => {
    expect(run(60, { ...OPEN, irradianceWPerM2: 390 }).conversion[0]).toBe(0);
    expect(run(60, { ...OPEN, irradianceWPerM2: 410 }).conversion[0]).toBeGreaterThan(0.5);
  });

  test('gets its oxygen back in the dark, and needs no less light after it', () => {
    const state = run(0.4, LAMP, 0.01);
    expect(state.oxygenRatio[0]).toBeCloseTo(0.2, 9);
    for (let i = 0; i < 1000; i++) stepCure(state, DEMO_CURING, { ...DARK, covered: false }, 0.01);
    expect(state.oxygenRatio[0]).toBeCloseTo(1, 9);
    expect(state.oxygenRatio[1]).toBeLessThan(0.4);
  });
});

describe('what is seen from outside', () => {
  test('the working curve starts at the critical exposure and adds Dp ln 2 for each doubling', () => {
    expect(workingCurveM(1000, DEMO_CURING)).toBe(0);
    expect(workingCurveM(500, DEMO_CURING)).toBe(0);
    fc.assert(
      fc.property(between(1001, 1e6), (exposureJPerM2) => {
        const more =
          workingCurveM(2 * exposureJPerM2, DEMO_CURING) -
          workingCurveM(exposureJPerM2, DEMO_CURING);
        expect(more).toBeCloseTo(1e-3 * Math.LN2, 12);
      }),
    );
  });

  test('the cured depth follows the exposure that the face has had', () => {
    const state = run(60, LAMP);
    expect(state.exposureJPerM2).toBeCloseTo(12_000, 6);
    expect(curedDepthM(state, DEMO_CURING)).toBeCloseTo(1e-3 * Math.log(12), 12);
  });

  test('working curve and kinetics gel the face of the demo resin at the same exposure', () => {
    const state = createCureState();
    for (let i = 0; i < 10_000 && (state.conversion[0] as number) < 0.1; i++) {
      stepCure(state, DEMO_CURING, LAMP, 0.001);
    }
    // To the four digits that the demo rate is given with.
    expect(state.exposureJPerM2 / 1000).toBeCloseTo(1, 2);
  });

  test('the break counts as set when its far side has', () => {
    const far = (seconds: number) => gelled(run(seconds, LAMP), DEMO_CURING);
    // Far side: 200 exp(-2) W/m2, so 3.695 s of oxygen and ln(1/0.9)/(0.01656 sqrt(0.27067)) s.
    expect(far(15.9)).toBe(false);
    expect(far(16)).toBe(true);
  });
});

test('curing settings in trade units are read and ranges kept', () => {
  const file = {
    criticalMJPerCm2: 8,
    penetrationMm: 0.15,
    oxygenMJPerCm2: 5,
    oxygenRefillPerS: 1,
    ratePerSAt10MWPerCm2: 0.1,
    gelConversion: 0.1,
    tackFreeConversion: 0.5,
    daylightEffect: 1,
  };
  const { criticalJPerM2, penetrationM, rate } = curingSchema.parse(file);
  expect([criticalJPerM2, penetrationM, rate]).toEqual([80, 0.15e-3, 0.01]);
  for (const wrong of [{ penetrationMm: 0 }, { gelConversion: 1 }, { oxygenMJPerCm2: -1 }]) {
    expect(curingSchema.safeParse({ ...file, ...wrong }).success).toBe(false);
  }
});
