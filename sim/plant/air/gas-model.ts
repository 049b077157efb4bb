/**
 * How the pressure of a node follows its amount of gas: isothermal (exponent 1) where walls keep
 * the gas at their temperature, isentropic (1.4 for air) where it changes faster than heat can
 * pass, and polytropic in between. The reference state is the atmosphere at the gas temperature:
 * gas there lies on the curve, so that flows in or out need no energy balance. `heatExchangeS`
 * tells which of them is right; the caller chooses.
 */
import { GAS_CONSTANT_J_PER_MOL_K } from './gas-constant.ts';

export interface GasModel {
  /** 1 (isothermal) to 1.4 (isentropic, diatomic gas). */
  readonly exponent: number;
}

export const ISOTHERMAL: GasModel = { exponent: 1 };
export const ISENTROPIC: GasModel = { exponent: 1.4 };

/**
 * Absolute pressure in Pa of `amountMol` in `volumeM3`: n R T / V, modified by the exponent
 * relative to the reference.
 */
export function gasPa(
  { exponent }: GasModel,
  amountMol: number,
  volumeM3: number,
  referencePa: number,
  referenceK: number,
): number {
  const isothermalPa = (amountMol * GAS_CONSTANT_J_PER_MOL_K * referenceK) / volumeM3;
  if (exponent === 1) return isothermalPa;
  return referencePa * Math.exp(exponent * Math.log(isothermalPa / referencePa));
}

/** Slope of pressure over amount, Pa/mol, where the node holds `amountMol` at `pressurePa`. */
export const gasSlopePaPerMol = (
  { exponent }: GasModel,
  amountMol: number,
  pressurePa: number,
): number => (exponent * pressurePa) / amountMol;

/**
 * Temperature of the node's gas, K: the reference's, or the one that follows from the ideal gas
 * law.
 */
export const nodeK = (
  { exponent }: GasModel,
  amountMol: number,
  pressurePa: number,
  volumeM3: number,
  referenceK: number,
): number =>
  exponent === 1 ? referenceK : (pressurePa * volumeM3) / (amountMol * GAS_CONSTANT_J_PER_MOL_K);

/** Amount in mol at `pressurePa`: the inverse of `gasPa`. */
export function amountAtMol(
  { exponent }: GasModel,
  pressurePa: number,
  volumeM3: number,
  referencePa: number,
  referenceK: number,
): number {
  const isothermalPa = referencePa * (pressurePa / referencePa) ** (1 / exponent);
  return (isothermalPa * volumeM3) / (GAS_CONSTANT_J_PER_MOL_K * referenceK);
}

/** Heat capacity of diatomic gas at constant volume, J/(mol K): 5/2 R. */
const MOLAR_HEAT_J_PER_MOL_K = 2.5 * GAS_CONSTANT_J_PER_MOL_K;
/**
 * Demo: a Nusselt number of 3.66 (laminar flow in a tube with walls at one temperature) with air of
 * 0.026 W/(m K) in a bore of 10 mm, all from memory of heat-transfer textbooks.
 */
export const WALL_W_PER_M2_K = (3.66 * 0.026) / 0.01;

/**
 * Time in which gas reaches the temperature of its walls, s: its heat capacity over the walls'
 * conductance. Changes much slower than this are isothermal, much faster ones isentropic. 10 mL of
 * air at one atmosphere in 30 cm2 of wall need 0.3 s, at a tenth of it 0.03 s: a pump-down of
 * seconds is isothermal, the first tenth of a vent from pressure is not.
 */
export const heatExchangeS = (
  amountMol: number,
  wallM2: number,
  wallWPerM2K: number = WALL_W_PER_M2_K,
): number => (amountMol * MOLAR_HEAT_J_PER_MOL_K) / (wallM2 * wallWPerM2K);
