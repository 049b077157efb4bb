import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEMO_RESIN, demoResinOf, resinSchema } from '../../../../sim/plant/break/resin.ts';
import {
  fitViscosity,
  type ViscosityLaw,
  type ViscosityPoint,
  viscosityPaS,
} from '../../../../sim/plant/break/viscosity.ts';
import { checkSettings } from '../../../../src/core/settings.ts';
import { kFromCelsius } from '../../../../src/core/units.ts';

const point = (celsius: number, mPaS: number): ViscosityPoint => ({
  temperatureK: kFromCelsius(celsius),
  viscosityPaS: mPaS / 1000,
});

function lawOf(table: readonly ViscosityPoint[]): ViscosityLaw {
  const fit = fitViscosity(table);
  if (!fit.ok) throw new Error(fit.problem);
  return fit.law;
}

function problemOf(table: readonly ViscosityPoint[]): string {
  const fit = fitViscosity(table);
  return fit.ok ? '' : fit.problem;
}

describe('the viscosity of a resin', () => {
  test('of two points goes through both, by the law of Andrade', () => {
    const law = lawOf([point(25, 40), point(10, 90)]);
    expect(law.cK).toBe(0);
    expect(viscosityPaS(law, kFromCelsius(10))).toBeCloseTo(0.09, 12);
    expect(viscosityPaS(law, kFromCelsius(25))).toBeCloseTo(0.04, 12);
  });

  test('of points made by a law of Vogel gives that law back', () => {
    const b = fc.double({ min: 500, max: 2000, noNaN: true });
    const c = fc.double({ min: 60, max: 200, noNaN: true });
    fc.assert(
      fc.property(b, c, (bK, cK) => {
        const made = { a: -9, bK, cK, worstMissRatio: 0 };
        const table = [0, 10, 25, 40, 60].map((celsius) => {
          const temperatureK = kFromCelsius(celsius);
          return { temperatureK, viscosityPaS: viscosityPaS(made, temperatureK) };
        });
        const law = lawOf(table);
        expect(law.cK).toBeCloseTo(cK, 1);
        expect(law.worstMissRatio).toBeLessThan(1e-5);
        const between = kFromCelsius(33);
        expect(viscosityPaS(law, between) / viscosityPaS(made, between)).toBeCloseTo(1, 5);
      }),
    );
  });

  test('of points made by a law of Andrade is that law, not a Vogel law beyond it', () => {
    const table = [5, 20, 35, 50].map((celsius) => ({
      temperatureK: kFromCelsius(celsius),
      viscosityPaS: 1e-9 * Math.exp(5200 / kFromCelsius(celsius)),
    }));
    expect(lawOf(table).cK).toBeLessThan(0.1);
    expect(lawOf(table).bK).toBeCloseTo(5200, -1);
  });

  test('does not depend on the order of its table', () => {
    const table = [point(5, 138), point(20, 50), point(30, 28.5), point(40, 17.5)];
    expect(lawOf([...table].reverse())).toEqual(lawOf(table));
  });

  test('tells how far its law misses the table', () => {
    const even = [point(0, 100), point(20, 40), point(40, 16)];
    const bent = [...even, point(30, 35)];
    expect(lawOf(bent).worstMissRatio).toBeGreaterThan(0.1);
    expect(lawOf(even).worstMissRatio).toBeLessThan(0.05);
  });

  test('is refused where a table cannot be that of a liquid', () => {
    expect(problemOf([point(20, 50)])).toContain('two points');
    expect(problemOf([])).toContain('two points');
    expect(problemOf([point(20, 50), point(22, 45)])).toContain('5 K apart');
    expect(problemOf([point(20, 50), point(30, 50)])).toContain('must fall');
    expect(problemOf([point(10, 80), point(20, 50), point(30, 55)])).toContain('must fall');
    expect(problemOf([point(20, 50), point(20, 40), point(30, 30)])).toContain('must fall');
    expect(problemOf([point(20, 0), point(30, -1)])).toContain('above zero');
    expect(problemOf([point(20, 50), point(400, 1)])).toContain('200 to 500 K');
  });
});

describe('the demo resin', () => {
  test('has about 50 mPa s at 20 °C and is about 6 % thinner a kelvin there', () => {
    const at20 = viscosityPaS(DEMO_RESIN.viscosity, kFromCelsius(20));
    expect(at20).toBeGreaterThan(0.0495);
    expect(at20).toBeLessThan(0.0505);
    const loss = 1 - viscosityPaS(DEMO_RESIN.viscosity, kFromCelsius(21)) / at20;
    expect(loss).toBeGreaterThan(0.055);
    expect(loss).toBeLessThan(0.065);
  });

  test('can be had at any viscosity at 20 °C, with the same fall', () => {
    const thick = demoResinOf(0.2);
    const thin = demoResinOf(0.05);
    expect(viscosityPaS(thick.viscosity, kFromCelsius(20))).toBeCloseTo(0.2, 12);
    for (const celsius of [-5, 5, 35])
      expect(
        viscosityPaS(thick.viscosity, kFromCelsius(celsius)) /
          viscosityPaS(thin.viscosity, kFromCelsius(celsius)),
      ).toBeCloseTo(4, 9);
  });
});

describe('resin settings', () => {
  const good = {
    viscosity: [
      { temperatureC: 20, viscosityMPaS: 50 },
      { temperatureC: 30, viscosityMPaS: 30 },
    ],
    surfaceTensionMNPerM: 40,
    contactAngleDegrees: 60,
    gasSolubilityMmolPerLBar: 3,
  };

  test('become SI values', () => {
    const resin = resinSchema.parse(good);
    expect(resin.adhesionNPerM).toBeCloseTo(0.02, 12);
    expect(resin.solubilityMolPerM3Pa).toBeCloseTo(3e-5, 15);
    expect(viscosityPaS(resin.viscosity, kFromCelsius(30))).toBeCloseTo(0.03, 12);
  });

  test('are refused, every problem at once, with what is accepted', () => {
    const bad = { ...good, contactAngleDegrees: 95, surfaceTensionMNPerM: 400 };
    const checked = checkSettings(resinSchema, bad, 'resin.json');
    expect(checked.ok ? [] : checked.problems.map(({ path }) => path)).toEqual([
      'surfaceTensionMNPerM',
      'contactAngleDegrees',
    ]);
    const rising = {
      ...good,
      viscosity: [...good.viscosity, { temperatureC: 40, viscosityMPaS: 60 }],
    };
    const risen = checkSettings(resinSchema, rising, 'resin.json');
    expect(risen.ok ? [] : risen.problems).toMatchObject([
      { path: 'viscosity', accepted: 'viscosity must fall from each point to the next warmer one' },
    ]);
  });
});
