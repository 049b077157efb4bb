/**
 * The air of the plant, an ideal gas, beside the constants of the SI, beside real air, and the
 * density that ISO 6358 counts its flows in.
 */
import { MOLAR_MASS_KG_PER_MOL, REFERENCE_KG_PER_M3 } from '../../../sim/plant/air/flow.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from '../../../sim/plant/air/gas-constant.ts';
import type { CheckGroup, CheckRow } from '../check.ts';
import air from '../reference/air-density.json' with { type: 'json' };

const CIPM = 'CIPM-2007, Metrologia 45 (2008) 149-155, coefficients second-hand';
/** The equation's own relative standard uncertainty, from memory. */
const CIPM_RELATIVE = 22e-6;

const realAirRow = (what: string, expected: number): CheckRow => ({
  what: `p/(ρ T) of dry air at ${what}`,
  actual: () => GAS_CONSTANT_J_PER_MOL_K / MOLAR_MASS_KG_PER_MOL,
  expected,
  tolerance: expected * CIPM_RELATIVE,
  unit: 'J/(kg K)',
  source: `${CIPM}; reference/air-density.md`,
  obtained: 'independent solver',
  misses:
    'The plant takes air as an ideal gas. Real air is up to 0.05 % denser here: far less than what any pump or leak figure is known to.',
});

export const AIR_CONSTANTS: CheckGroup = {
  title: 'gas constant and density of air',
  rows: [
    {
      what: 'molar gas constant',
      actual: () => GAS_CONSTANT_J_PER_MOL_K,
      expected: 6.02214076e23 * 1.380649e-23,
      // Half of the tenth digit.
      tolerance: 5e-10,
      unit: 'J/(mol K)',
      source: "SI of 2019: Avogadro's constant times Boltzmann's, both exact",
      obtained: 'from memory',
    },
    {
      what: 'molar mass of dry air',
      actual: () => MOLAR_MASS_KG_PER_MOL * 1000,
      expected: 28.9644,
      tolerance: 0.00005,
      unit: 'g/mol',
      source: 'US Standard Atmosphere 1976, as used by public calculators',
      obtained: 'seen second-hand',
    },
    {
      what: 'molar mass of dry air with the carbon dioxide of this century',
      actual: () => MOLAR_MASS_KG_PER_MOL * 1000,
      expected: 28.96546,
      tolerance: 0.000005,
      unit: 'g/mol',
      source: CIPM,
      obtained: 'seen second-hand',
      misses:
        'The model keeps the standard atmosphere of 1976, which has less carbon dioxide: 0.004 % lighter.',
    },
    realAirRow('20 C and 100 kPa', air.dryGasConstantJPerKgK['20C100kPa']),
    realAirRow('20 C and 60 kPa', air.dryGasConstantJPerKgK['20C60kPa']),
    realAirRow('15 C and 100 kPa', air.dryGasConstantJPerKgK['15C100kPa']),
    {
      what: 'density at the reference state of ISO 6358: 20 C, 100 kPa, 65 % relative humidity',
      actual: () => REFERENCE_KG_PER_M3,
      expected: air.iso6358ReferenceKgPerM3,
      // Half of the last digit of 1.185.
      tolerance: 0.0005,
      unit: 'kg/m3',
      source: `${CIPM}; reference/air-density.md`,
      obtained: 'independent solver',
      misses:
        'The figure 1.185 defines what a sonic conductance means, so it stays, though air of that state weighs 0.25 % less; 1.185 lies between it and dry air (1.1888).',
    },
  ],
};
