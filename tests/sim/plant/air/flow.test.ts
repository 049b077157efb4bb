import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  chordMolPerSPa,
  flowMolPerS,
  LAMINAR_RATIO,
  MOLAR_MASS_KG_PER_MOL,
  type Restriction,
  restrictionSchema,
  sonicMolPerM3,
} from '../../../../sim/plant/air/flow.ts';
import { checkSettings } from '../../../../src/core/settings.ts';

const VALVE: Restriction = { sonicConductance: 2e-9, criticalRatio: 0.3 };
const GAS_K = 293.15;
const pressure = fc.double({ min: 1, max: 1e6, noNaN: true });
const ratio = fc.double({ min: 0, max: 1, noNaN: true });
const flow = (upPa: number, downPa: number) => flowMolPerS(VALVE, upPa, downPa, GAS_K);

describe('a restriction', () => {
  test('passes nothing between equal pressures, and nothing between two vacuums', () => {
    fc.assert(fc.property(pressure, (pa) => void expect(Math.abs(flow(pa, pa))).toBe(0)));
    expect(Math.abs(flow(0, 0))).toBe(0);
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
      fc.property(pressure, ratio, ratio, (upPa, r1, r2) => {
        const [low, high] = r1 < r2 ? [r1, r2] : [r2, r1];
        expect(flow(upPa, low * upPa)).toBeGreaterThanOrEqual(flow(upPa, high * upPa) * (1 - 1e-9));
      }),
    );
    expect(flow(1e5, 0.29e5)).toBeCloseTo(flow(1e5, 0), 15);
    expect(flow(1e5, 0.4e5)).toBeLessThan(flow(1e5, 0));
  });

  test('passes its conductance times inlet pressure of reference air while it is choked', () => {
    expect(flow(1e5, 0) * MOLAR_MASS_KG_PER_MOL).toBeCloseTo(2e-9 * 1e5 * 1.185, 14);
  });

  test.each([0.3, LAMINAR_RATIO])('has no step at a ratio of %d', (at) => {
    expect(flow(1e5, at * 1e5 * (1 + 1e-10)) / flow(1e5, at * 1e5 * (1 - 1e-10))).toBeCloseTo(1, 6);
  });

  test('is a straight line where pressures are nearly equal', () => {
    expect(flow(1e5, 99_950) / flow(1e5, 99_975)).toBeCloseTo(2, 9);
  });

  test('passes less of warmer gas, by the root of its temperature', () => {
    expect(flowMolPerS(VALVE, 2e5, 1e5, 4 * GAS_K)).toBeCloseTo(flow(2e5, 1e5) / 2, 15);
  });

  test('lets the gas of the higher pressure count', () => {
    const warm = { pressurePa: 2e5, sonicMolPerM3: sonicMolPerM3(400) };
    const cold = { pressurePa: 1e5, sonicMolPerM3: sonicMolPerM3(200) };
    expect(chordMolPerSPa(VALVE, warm, cold) * 1e5).toBeCloseTo(flowMolPerS(VALVE, 2e5, 1e5, 400));
    expect(chordMolPerSPa(VALVE, cold, warm)).toBe(chordMolPerSPa(VALVE, warm, cold));
  });

  test('is nowhere steeper than its chord', () => {
    fc.assert(
      fc.property(pressure, fc.double({ min: 0.01, max: 0.998, noNaN: true }), (upPa, r) => {
        const downPa = r * upPa;
        const chord = flow(upPa, downPa) / (upPa - downPa);
        const byPa = 1e-4 * (upPa - downPa);
        const byUp = (flow(upPa + byPa, downPa) - flow(upPa - byPa, downPa)) / (2 * byPa);
        const byDown = (flow(upPa, downPa - byPa) - flow(upPa, downPa + byPa)) / (2 * byPa);
        expect(byUp).toBeLessThanOrEqual(chord * (1 + 1e-6));
        expect(byDown).toBeLessThanOrEqual(chord * (1 + 1e-6));
      }),
    );
  });
});

test('a data sheet gives its conductance in dm3/(s bar)', () => {
  const sheet = { conductanceDm3PerSBar: 0.2, criticalRatio: 0.3 };
  const read = checkSettings(restrictionSchema, sheet, 'unit');
  expect(read).toEqual({ ok: true, value: { sonicConductance: 2e-9, criticalRatio: 0.3 } });
});

test('a critical ratio that no restriction has is refused', () => {
  const sheet = { conductanceDm3PerSBar: 0.2, criticalRatio: 0.9 };
  expect(checkSettings(restrictionSchema, sheet, 'unit')).toMatchObject({
    ok: false,
    problems: [{ path: 'criticalRatio', accepted: 'a number from 0 to 0.6' }],
  });
});
