/**
 * Water in a break and on its faces: liquid that evaporates into the unit's gas until it is used
 * up, and adsorbed matter that outgasses towards a pressure of its own, well below saturation. It
 * keeps the amounts of both in the gas as tracers; the air model moves the gas as a whole.
 */
import { GAS_CONSTANT_J_PER_MOL_K } from '../air/gas-constant.ts';

export interface MoistureState {
  /** Liquid water left in the break. */
  waterMol: number;
  /** Water vapour in the unit's gas. */
  vapourMol: number;
  /** Gas released by the faces, in the unit's gas. */
  outgasMol: number;
}

export interface MoistureSettings {
  /** Time in which vapour approaches saturation over wet glass, s; demo. */
  readonly evaporationS: number;
  /** Pressure at which the faces stop outgassing, Pa; 0 for clean glass. */
  readonly outgasPa: number;
  /** Time in which they approach it, s; demo. */
  readonly outgassingS: number;
}

/** Demo: water dries in tens of seconds; faces outgas up to a kilopascal. */
export const DEMO_MOISTURE: MoistureSettings = {
  evaporationS: 10,
  outgasPa: 1100,
  outgassingS: 8,
};

export interface MoistureDrive {
  readonly glassK: number;
  readonly gasK: number;
  readonly unitM3: number;
  /** All gas in the unit, tracers included. */
  readonly unitTotalMol: number;
  /** Gas leaving the unit; gas that enters brings no tracer. */
  readonly outflowMolPerS: number;
  readonly dtS: number;
}

const CRITICAL_K = 647.096;
const CRITICAL_PA = 22.064e6;

/**
 * Saturation pressure over liquid water, Pa, for 273.16 to 647.096 K: Wagner and Pruss 1993, adopted
 * as the IAPWS supplementary release SR1-86(1992); coefficients from memory, checked against the
 * release's values at the triple and boiling points. Below 0 °C it is that of supercooled water.
 */
export function saturationPa(temperatureK: number): number {
  const t = 1 - temperatureK / CRITICAL_K;
  const root = Math.sqrt(t);
  const t2 = t * t;
  const t3 = t2 * t;
  const sum =
    -7.85951783 * t +
    1.84408259 * t * root +
    t3 * (-11.7866497 + 22.6807411 * root + t * (-15.9618719 + 1.80122502 * t3 * root));
  return CRITICAL_PA * Math.exp((CRITICAL_K / temperatureK) * sum);
}

/** Advances water and tracers by `dtS`, in place; returns the gas that enters the unit, mol/s. */
export function stepMoisture(
  state: MoistureState,
  { evaporationS, outgasPa, outgassingS }: MoistureSettings,
  { glassK, gasK, unitM3, unitTotalMol, outflowMolPerS, dtS }: MoistureDrive,
): number {
  const molPerPa = unitM3 / (GAS_CONSTANT_J_PER_MOL_K * gasK);
  const lossPerS = Math.max(0, outflowMolPerS) / unitTotalMol;
  const fullMol = saturationPa(glassK) * molPerPa;
  // Dry glass gives no vapour, but condenses it where the gas is oversaturated.
  const exchanges = state.waterMol > 0 || state.vapourMol > fullMol;
  let gainedMol = exchanges
    ? gainMol(state.vapourMol, fullMol, 1 / evaporationS, lossPerS, dtS)
    : 0;
  if (gainedMol > state.waterMol) gainedMol = state.waterMol;
  state.vapourMol = mixedMol(state.vapourMol, gainedMol, lossPerS, dtS);
  state.waterMol -= gainedMol;
  const outgasFullMol = outgasPa * molPerPa;
  const givenMol =
    state.outgasMol < outgasFullMol
      ? gainMol(state.outgasMol, outgasFullMol, 1 / outgassingS, lossPerS, dtS)
      : 0;
  state.outgasMol = mixedMol(state.outgasMol, givenMol, lossPerS, dtS);
  return (gainedMol + givenMol) / dtS;
}

/**
 * What a tracer gains in `dtS` from a source that tends to `fullMol` at `perS` while the outflow
 * removes `lossPerS` of it: exact for constant rates, and stable for any step.
 */
function gainMol(
  fromMol: number,
  fullMol: number,
  perS: number,
  lossPerS: number,
  dtS: number,
): number {
  const allPerS = perS + lossPerS;
  const restMol = (fullMol * perS) / allPerS;
  const meanMol = restMol + ((fromMol - restMol) * -Math.expm1(-allPerS * dtS)) / (allPerS * dtS);
  return (fullMol - meanMol) * perS * dtS;
}

/**
 * A tracer after `dtS` with a gain spread evenly over it and the outflow's share removed from both.
 */
function mixedMol(fromMol: number, gainedMol: number, lossPerS: number, dtS: number): number {
  const lost = lossPerS * dtS;
  const kept = Math.exp(-lost);
  const gainKept = lost > 1e-9 ? -Math.expm1(-lost) / lost : 1;
  return Math.max(0, fromMol * kept + gainedMol * gainKept);
}
