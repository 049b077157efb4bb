import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { GAS_CONSTANT_J_PER_MOL_K } from '../../../../sim/plant/air/gas-constant.ts';
import {
  DEMO_MOISTURE,
  type MoistureDrive,
  type MoistureState,
  saturationPa,
  stepMoisture,
} from '../../../../sim/plant/break/moisture.ts';
import { kFromCelsius } from '../../../../src/core/units.ts';

const UNIT_M3 = 30e-6;
const GLASS_K = kFromCelsius(23);
const MOL_PER_PA = UNIT_M3 / (GAS_CONSTANT_J_PER_MOL_K * GLASS_K);
const DRIVE: MoistureDrive = {
  glassK: GLASS_K,
  gasK: GLASS_K,
  unitM3: UNIT_M3,
  unitTotalMol: 25_000 * MOL_PER_PA,
  outflowMolPerS: 0,
  dtS: 0.05,
};
const DRY_FACES = { ...DEMO_MOISTURE, outgasPa: 0 };
const wet = (waterMol: number): MoistureState => ({ waterMol, vapourMol: 0, outgasMol: 0 });

/** The sum of the sources over a time, mol. */
function run(
  state: MoistureState,
  seconds: number,
  changes: Partial<MoistureDrive> = {},
  settings = DRY_FACES,
): number {
  const drive = { ...DRIVE, ...changes };
  let givenMol = 0;
  for (let i = 0; i < Math.round(seconds / drive.dtS); i++)
    givenMol += stepMoisture(state, settings, drive) * drive.dtS;
  return givenMol;
}

describe('the saturation pressure of water', () => {
  test('rises with temperature, ever more', () => {
    const celsius = fc.double({ min: 0.5, max: 59.5, noNaN: true });
    fc.assert(
      fc.property(celsius, (c) => {
        const [less, here, more] = [-0.5, 0, 0.5].map((d) => saturationPa(kFromCelsius(c + d)));
        expect(here! - less!).toBeGreaterThan(0);
        expect(more! - here!).toBeGreaterThan(here! - less!);
      }),
    );
  });

  test('follows Clausius and Clapeyron with the latent heat of steam tables', () => {
    // 2441.7 kJ/kg at 25 °C (steam tables, from memory); the vapour is ideal to about 0.2 % there.
    const slope = (saturationPa(298.65) - saturationPa(297.65)) / saturationPa(298.15);
    const latent = slope * GAS_CONSTANT_J_PER_MOL_K * 298.15 ** 2;
    expect(latent / 0.018015).toBeGreaterThan(2_441_700 * 0.997);
    expect(latent / 0.018015).toBeLessThan(2_441_700 * 1.003);
  });
});

describe('water in a break', () => {
  test('fills the gas to saturation at the temperature of the glass and stops there', () => {
    for (const celsius of [5, 23, 40]) {
      const glassK = kFromCelsius(celsius);
      const state = wet(1e-3);
      run(state, 200, { glassK });
      expect(state.vapourMol / MOL_PER_PA / saturationPa(glassK)).toBeCloseTo(1, 6);
    }
  });

  test('nears saturation in its own time, at any step', () => {
    for (const dtS of [0.001, 0.05, 1, 10]) {
      const state = wet(1e-3);
      run(state, 10, { dtS });
      const share = state.vapourMol / MOL_PER_PA / saturationPa(GLASS_K);
      expect(share).toBeCloseTo(1 - Math.exp(-1), 9);
    }
  });

  test('is used up, and then no more vapour comes', () => {
    const state = wet(2e-6);
    const givenMol = run(state, 120);
    expect(state.waterMol).toBe(0);
    expect(givenMol).toBeCloseTo(2e-6, 15);
    expect(run(state, 10)).toBe(0);
  });

  test('comes back as vapour condenses on glass that has cooled', () => {
    const state = wet(1e-4);
    run(state, 100, { glassK: kFromCelsius(35) });
    const left = state.waterMol;
    const givenMol = run(state, 100, { glassK: kFromCelsius(5) });
    expect(givenMol).toBeLessThan(0);
    expect(state.waterMol).toBeGreaterThan(left);
    expect(state.vapourMol / MOL_PER_PA / saturationPa(kFromCelsius(5))).toBeCloseTo(1, 3);
  });

  test('condenses on dry glass too, once the gas holds more than saturates it', () => {
    const fullMol = saturationPa(GLASS_K) * MOL_PER_PA;
    const state: MoistureState = { waterMol: 0, vapourMol: 2 * fullMol, outgasMol: 0 };
    run(state, 100);
    expect(state.vapourMol / fullMol).toBeCloseTo(1, 3);
    expect(state.waterMol / fullMol).toBeCloseTo(1, 3);
  });

  test('is neither made nor lost while nothing flows out', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e-4, noNaN: true }),
        fc.array(fc.double({ min: 273.2, max: 330, noNaN: true }), { minLength: 1, maxLength: 20 }),
        (waterMol, glassKs) => {
          const state = wet(waterMol);
          for (const glassK of glassKs) {
            run(state, 3, { glassK });
            expect(Math.abs(state.waterMol + state.vapourMol - waterMol)).toBeLessThan(1e-18);
            expect(state.waterMol).toBeGreaterThanOrEqual(0);
            expect(state.vapourMol).toBeGreaterThanOrEqual(0);
          }
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('outflow', () => {
  test('takes vapour along in proportion to its share', () => {
    const state: MoistureState = { waterMol: 0, vapourMol: 1e-6, outgasMol: 4e-7 };
    const outflowMolPerS = DRIVE.unitTotalMol / 20;
    run(state, 20, { outflowMolPerS }, { ...DRY_FACES });
    expect(state.vapourMol).toBeCloseTo(1e-6 * Math.exp(-1), 12);
    expect(state.outgasMol).toBeCloseTo(4e-7 * Math.exp(-1), 12);
  });

  test('holds the vapour below saturation: a balance of what comes and what goes', () => {
    const state = wet(1);
    run(state, 200, { outflowMolPerS: DRIVE.unitTotalMol / 10 });
    expect(state.vapourMol / MOL_PER_PA / saturationPa(GLASS_K)).toBeCloseTo(0.5, 4);
  });

  test('into the unit brings and takes no vapour', () => {
    const state: MoistureState = { waterMol: 0, vapourMol: 1e-6, outgasMol: 0 };
    run(state, 20, { outflowMolPerS: -1e-4 });
    expect(state.vapourMol).toBe(1e-6);
  });
});

describe('outgassing', () => {
  test('flattens at its own pressure, well below saturation', () => {
    const state = wet(0);
    const givenMol = run(state, 300, {}, DEMO_MOISTURE);
    expect(state.outgasMol / MOL_PER_PA).toBeCloseTo(DEMO_MOISTURE.outgasPa, 3);
    expect(givenMol).toBeCloseTo(state.outgasMol, 15);
    expect(DEMO_MOISTURE.outgasPa).toBeLessThan(0.5 * saturationPa(kFromCelsius(23)));
  });
});
