import fc from 'fast-check';
import { expect, it } from 'vitest';
import { dewPointK, waterSaturationPa } from '../../src/core/water.ts';

// Psychrometric charts, dew point of moist air at sea level, to half a kelvin (from memory).
it.each([
  [20, 0.5, 9.3],
  [25, 0.6, 16.7],
  [30, 0.8, 26.2],
])('air of %s C at a humidity of %s gives up water at %s C', (airC, humidity, dewC) => {
  expect(Math.abs(dewPointK(airC + 273.15, humidity) - 273.15 - dewC)).toBeLessThan(0.5);
});

it('puts the dew point where the air would be full', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 255, max: 320, noNaN: true }),
      fc.double({ min: 0.02, max: 1, noNaN: true }),
      (airK, humidity) => {
        const atDew = waterSaturationPa(dewPointK(airK, humidity));
        expect(atDew / (humidity * waterSaturationPa(airK))).toBeCloseTo(1, 9);
      },
    ),
  );
});
