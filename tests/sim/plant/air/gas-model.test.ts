import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { GAS_CONSTANT_J_PER_MOL_K } from '../../../../sim/plant/air/gas-constant.ts';
import {
  amountAtMol,
  gasPa,
  gasSlopePaPerMol,
  heatExchangeS,
  ISENTROPIC,
  ISOTHERMAL,
  nodeK,
  WALL_W_PER_M2_K,
} from '../../../../sim/plant/air/gas-model.ts';

const AIR_PA = 101_325;
const GAS_K = 293.15;
const VOLUME_M3 = 30e-6;
const exponents = fc.double({ min: 1, max: 1.4, noNaN: true });
const pressures = fc.double({ min: 100, max: 1e6, noNaN: true });
const heldMol = (pa: number, exponent: number) =>
  amountAtMol({ exponent }, pa, VOLUME_M3, AIR_PA, GAS_K);

describe('gas in a node', () => {
  test('is an ideal gas while its temperature stays', () => {
    const mol = 0.001;
    const pa = gasPa(ISOTHERMAL, mol, VOLUME_M3, AIR_PA, GAS_K);
    expect(pa * VOLUME_M3).toBeCloseTo(mol * GAS_CONSTANT_J_PER_MOL_K * GAS_K, 12);
    expect(nodeK(ISOTHERMAL, mol, pa, VOLUME_M3, GAS_K)).toBe(GAS_K);
  });

  test('is the air outside at the pressure of the air, whatever the exponent', () => {
    fc.assert(
      fc.property(exponents, (exponent) => {
        const mol = heldMol(AIR_PA, 1);
        const pa = gasPa({ exponent }, mol, VOLUME_M3, AIR_PA, GAS_K);
        expect(pa / AIR_PA).toBeCloseTo(1, 12);
        expect(nodeK({ exponent }, mol, pa, VOLUME_M3, GAS_K)).toBeCloseTo(GAS_K, 9);
      }),
    );
  });

  test('holds the amount that stands at its pressure', () => {
    fc.assert(
      fc.property(pressures, exponents, (pa, exponent) => {
        const mol = heldMol(pa, exponent);
        expect(gasPa({ exponent }, mol, VOLUME_M3, AIR_PA, GAS_K) / pa).toBeCloseTo(1, 10);
      }),
    );
  });

  test('answers to its amount with the slope that is told', () => {
    fc.assert(
      fc.property(pressures, exponents, (pa, exponent) => {
        const mol = heldMol(pa, exponent);
        const at = (n: number) => gasPa({ exponent }, n, VOLUME_M3, AIR_PA, GAS_K);
        const slope = (at(mol * 1.0001) - at(mol * 0.9999)) / (0.0002 * mol);
        expect(gasSlopePaPerMol({ exponent }, mol, pa) / slope).toBeCloseTo(1, 6);
      }),
    );
  });

  test('cools when it expands without heat from the walls', () => {
    const mol = heldMol(AIR_PA / 2, 1.4);
    const cooled = nodeK(ISENTROPIC, mol, AIR_PA / 2, VOLUME_M3, GAS_K);
    expect(cooled).toBeCloseTo(GAS_K * 0.5 ** (0.4 / 1.4), 9);
  });
});

describe('the heat exchange of a node', () => {
  test('takes its heat capacity over the conductance of its walls', () => {
    expect(heatExchangeS(0.001, 0.003, 10)).toBeCloseTo((0.001 * 20.786) / 0.03, 4);
  });

  test('is quicker than a pump-down of the demo node and slower than its vent', () => {
    const fullS = heatExchangeS(heldMol(AIR_PA, 1), 0.006);
    expect(fullS).toBeGreaterThan(0.05);
    expect(fullS).toBeLessThan(1);
    expect(WALL_W_PER_M2_K).toBeCloseTo(9.5, 1);
  });

  test('is ten times as quick at a tenth of the pressure', () => {
    const ratio = heatExchangeS(heldMol(1e5, 1), 0.006) / heatExchangeS(heldMol(1e4, 1), 0.006);
    expect(ratio).toBeCloseTo(10, 9);
  });
});
