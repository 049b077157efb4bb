import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  allowedHeating,
  type HeatingLimits,
  hotSpotTensionPa,
  type Leg,
  rateTensionPa,
  SLOW_GROWTH_PA_SQRT_M,
  stressIntensityPaSqrtM,
  throughPlyK,
} from '../../../src/safety/watch/heat-stress.ts';

const OWN: HeatingLimits = { spotOverPaneK: 8, rateKPerS: 10 / 60 };
const leg = (legM: number): Leg => ({ legM, legShare: 0.7, plyM: 2.1e-3 });
const legM = fc.double({ min: 1e-3, max: 0.4, noNaN: true });

describe('what warmth does to a leg', () => {
  test('a spot 20 K over the pane loads a 10 mm leg more than ten times as much as 4 bar do', () => {
    const heat = stressIntensityPaSqrtM(hotSpotTensionPa(20), 0.01);
    const pressure = stressIntensityPaSqrtM(400_000, 0.01);
    expect(heat / pressure).toBeGreaterThan(10);
  });

  test('a spot colder than the pane puts no tension outside it', () => {
    expect(hotSpotTensionPa(-5)).toBe(0);
  });

  test('cooling loads twice as much as warming at the same rate', () => {
    const rate = 10 / 60;
    expect(rateTensionPa(-rate, 2.1e-3)).toBeCloseTo(2 * rateTensionPa(rate, 2.1e-3), 6);
    expect(rateTensionPa(0, 2.1e-3)).toBe(0);
  });

  test('the difference through the ply grows with rate and with the square of its thickness', () => {
    expect(throughPlyK(2, 1e-3)).toBeCloseTo(2 * throughPlyK(1, 1e-3), 12);
    expect(throughPlyK(1, 2e-3)).toBeCloseTo(4 * throughPlyK(1, 1e-3), 12);
  });
});

describe('allowed heating', () => {
  test('is the unit’s own for a short leg, and less for a long one', () => {
    expect(allowedHeating(OWN, leg(0.002)).spotOverPaneK).toBe(8);
    expect(allowedHeating(OWN, leg(0.01)).spotOverPaneK).toBeCloseTo(5.71, 2);
    expect(allowedHeating(OWN, leg(0.05)).spotOverPaneK).toBeCloseTo(2.55, 2);
  });

  test('lets the own limit of 8 K govern up to a leg of 5 mm', () => {
    expect(allowedHeating(OWN, leg(0.005)).spotOverPaneK).toBe(8);
    expect(allowedHeating(OWN, leg(0.0052)).spotOverPaneK).toBeLessThan(8);
  });

  test('asks of no leg less than one thermistor can tell', () => {
    expect(allowedHeating(OWN, leg(0.4)).spotOverPaneK).toBe(2);
  });

  test('tightens the rate only for a very long leg', () => {
    expect(allowedHeating(OWN, leg(0.2)).rateKPerS).toBe(OWN.rateKPerS);
    expect(allowedHeating(OWN, leg(0.4)).rateKPerS).toBeLessThan(OWN.rateKPerS);
  });

  test('brings the leg to the slow-growth threshold where K governs', () => {
    const loose: HeatingLimits = { spotOverPaneK: 1000, rateKPerS: 1000 };
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 0.07, noNaN: true }), (m) => {
        const { spotOverPaneK, rateKPerS } = allowedHeating(loose, leg(m));
        const bySpot = 0.7 * stressIntensityPaSqrtM(hotSpotTensionPa(spotOverPaneK), m);
        const byRate = 0.7 * stressIntensityPaSqrtM(rateTensionPa(-rateKPerS, 2.1e-3), m);
        expect(bySpot / SLOW_GROWTH_PA_SQRT_M).toBeCloseTo(1, 9);
        expect(byRate / SLOW_GROWTH_PA_SQRT_M).toBeCloseTo(1, 9);
      }),
    );
  });

  test('never passes the unit’s own limits and never grows with the leg', () => {
    fc.assert(
      fc.property(legM, legM, (one, other) => {
        const short = allowedHeating(OWN, leg(Math.min(one, other)));
        const long = allowedHeating(OWN, leg(Math.max(one, other)));
        expect(short.spotOverPaneK).toBeLessThanOrEqual(OWN.spotOverPaneK);
        expect(short.rateKPerS).toBeLessThanOrEqual(OWN.rateKPerS);
        expect(long.spotOverPaneK).toBeLessThanOrEqual(short.spotOverPaneK);
        expect(long.rateKPerS).toBeLessThanOrEqual(short.rateKPerS);
      }),
    );
  });
});
