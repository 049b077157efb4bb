import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  capillaryPa,
  DEMO_RESIN,
  emptyFilling,
  escapePerS,
  type Filling,
  frontSpeedMPerS,
  type Gap,
  type Resin,
  stepFilling,
  viscosityPaS,
} from '../../../sim/plant/break-filling.ts';

const GAP: Gap = { lengthM: 0.01, apertureM: 1.5e-6, escapeS: 40 };
const RESIN: Resin = { ...DEMO_RESIN, viscosityPaSAt20C: 0.05 };
const ATMOSPHERE_PA = 100_000;

/** Fills an empty gap for a time at one chamber pressure; `atmospherePa` as given to the model. */
function fill(chamberPa: number, seconds: number, gap = GAP, atmospherePa = ATMOSPHERE_PA) {
  const filling: Filling = emptyFilling(gap, ATMOSPHERE_PA);
  const drive = {
    chamberPa,
    atmospherePa,
    capillaryPa: capillaryPa(gap.apertureM, RESIN),
    viscosity: 0.05,
  };
  for (let i = 0; i < seconds * 1000; i++) stepFilling(filling, gap, drive, 0.001);
  return filling;
}

describe('the resin front', () => {
  test('goes further the higher the pressure', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100_000, max: 300_000, noNaN: true }),
        fc.double({ min: 1_000, max: 100_000, noNaN: true }),
        (chamberPa, morePa) => {
          const less = fill(chamberPa, 1).frontM;
          expect(fill(chamberPa + morePa, 1).frontM).toBeGreaterThan(less);
        },
      ),
      { numRuns: 30 },
    );
  });

  test('goes further the wider the gap and the thinner the resin', () => {
    const wide = { ...GAP, apertureM: 3e-6 };
    expect(fill(240_000, 1, wide).frontM).toBeGreaterThan(fill(240_000, 1).frontM);
    expect(frontSpeedMPerS(1e-6, 1e5, 0.05, 0.01)).toBeCloseTo(
      2 * frontSpeedMPerS(1e-6, 1e5, 0.1, 0.01),
      15,
    );
  });

  test('stays inside the gap and its gas stays positive, whatever the pressure does', () => {
    const pressures = fc.array(fc.double({ min: 1_000, max: 400_000, noNaN: true }), {
      minLength: 1,
      maxLength: 30,
    });
    const apertures = fc.double({ min: 1e-7, max: 1e-4, noNaN: true });
    fc.assert(
      fc.property(pressures, apertures, (chamberPas, apertureM) => {
        const gap = { ...GAP, apertureM };
        const filling = emptyFilling(gap, ATMOSPHERE_PA);
        for (const chamberPa of chamberPas) {
          const drive = {
            chamberPa,
            atmospherePa: ATMOSPHERE_PA,
            capillaryPa: capillaryPa(apertureM, RESIN),
            viscosity: 0.05,
          };
          for (let i = 0; i < 50; i++) {
            const gasBefore = filling.gasPaM;
            stepFilling(filling, gap, drive, 0.001);
            expect(filling.frontM).toBeGreaterThanOrEqual(0);
            expect(filling.frontM).toBeLessThan(gap.lengthM);
            expect(filling.gasPaM).toBeGreaterThan(0);
            expect(filling.gasPaM).toBeLessThanOrEqual(gasBefore);
          }
        }
      }),
    );
  });

  test('goes back when the pressure is let off before the gap is full', () => {
    const wide = { ...GAP, apertureM: 2e-5 };
    const filling = fill(300_000, 5, wide);
    const pressed = filling.frontM;
    const drive = {
      chamberPa: ATMOSPHERE_PA,
      atmospherePa: ATMOSPHERE_PA,
      capillaryPa: capillaryPa(wide.apertureM, RESIN),
      viscosity: 0.05,
    };
    for (let i = 0; i < 5000; i++) stepFilling(filling, wide, drive, 0.001);
    expect(filling.frontM).toBeLessThan(0.9 * pressed);
  });
});

describe('the trapped gas', () => {
  test('obeys Boyle: at rest its pressure is that of the chamber and the capillary together', () => {
    fc.assert(
      fc.property(fc.double({ min: 110_000, max: 400_000, noNaN: true }), (chamberPa) => {
        // At an atmosphere equal to the chamber pressure no gas is lost.
        const wide = { ...GAP, apertureM: 5e-5 };
        const { frontM, gasPaM } = fill(chamberPa, 2, wide, chamberPa);
        expect(gasPaM).toBe(ATMOSPHERE_PA * wide.lengthM);
        const restPa = chamberPa + capillaryPa(wide.apertureM, RESIN);
        expect(gasPaM / (wide.lengthM - frontM) / restPa).toBeCloseTo(1, 6);
      }),
      { numRuns: 30 },
    );
  });

  test('escapes under vacuum alone, sooner through thinner resin and under deeper vacuum', () => {
    expect(escapePerS(GAP, 100_000, ATMOSPHERE_PA, 0.05)).toBe(0);
    expect(escapePerS(GAP, 240_000, ATMOSPHERE_PA, 0.05)).toBe(0);
    const shallow = escapePerS(GAP, 60_000, ATMOSPHERE_PA, 0.05);
    expect(shallow).toBeGreaterThan(0);
    expect(escapePerS(GAP, 25_000, ATMOSPHERE_PA, 0.05)).toBeGreaterThan(shallow);
    expect(escapePerS(GAP, 60_000, ATMOSPHERE_PA, 0.1)).toBeCloseTo(shallow / 2, 12);
  });

  test('dissolves under pressure and not at rest', () => {
    expect(fill(240_000, 60).gasPaM).toBeLessThan(0.8 * ATMOSPHERE_PA * GAP.lengthM);
    expect(fill(ATMOSPHERE_PA, 60).gasPaM).toBe(ATMOSPHERE_PA * GAP.lengthM);
  });
});

describe('viscosity', () => {
  test('is the stated one at 20 °C', () => {
    expect(viscosityPaS(RESIN, 293.15)).toBe(0.05);
  });

  test('falls as the resin warms, in proportion for every resin', () => {
    const kelvins = fc.double({ min: 263.15, max: 323.15, noNaN: true });
    fc.assert(
      fc.property(kelvins, fc.double({ min: 0.1, max: 20, noNaN: true }), (k, warmerK) => {
        expect(viscosityPaS(RESIN, k + warmerK)).toBeLessThan(viscosityPaS(RESIN, k));
        const thick = { ...RESIN, viscosityPaSAt20C: 0.1 };
        expect(viscosityPaS(thick, k) / viscosityPaS(RESIN, k)).toBeCloseTo(2, 9);
      }),
    );
  });
});
