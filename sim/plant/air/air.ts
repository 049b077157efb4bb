/**
 * The air side in time: two nodes, the manifold (pump, vent, relief valve, pressure sensor) and the
 * injector (seal, break), joined by the hose. One step is ROS2, a linearly implicit method of
 * second order that is L-stable and, with this gamma, free of overshoot on decaying solutions (a
 * paper in SIAM J. Sci. Comput. 20, 1999, on photochemical dispersion; from memory). It keeps its
 * order with any matrix in place of the Jacobian, so restrictions enter by their chord: near equal
 * pressures the tangent of the quarter ellipse is half as steep, and a step with it would
 * overshoot.
 */
import { type AirDrive, type AirMoment, setMoment, unsetMoment } from './air-flows.ts';
import type { AirUnit } from './air-unit.ts';
import { type Passage, sonicMolPerM3 } from './flow.ts';
import { amountAtMol, type GasModel, gasPa, gasSlopePaPerMol, ISOTHERMAL } from './gas-model.ts';
import { settledSpeedRatio, stepPumpSpeed } from './pump.ts';

/** What entered the unit since the start, mol, by path; negative where it left. */
export interface AirLedger {
  pumpMol: number;
  /** Through the vent, a leak of the manifold, and its end of a hose that is off. */
  ventMol: number;
  reliefMol: number;
  /** Past the seal and the injector's end of a hose that is off. */
  sealMol: number;
  sourceMol: number;
}

/** Net amount that entered the unit through its openings and the pump, mol. */
export const crossedMol = ({ pumpMol, ventMol, reliefMol, sealMol }: AirLedger): number =>
  pumpMol + ventMol + reliefMol + sealMol;

export interface AirState {
  manifoldMol: number;
  injectorMol: number;
  manifoldPa: number;
  injectorPa: number;
  pumpSpeedRatio: number;
  readonly ledger: AirLedger;
  /** Work space: both ends of the last step, written by each step before they are read. */
  readonly from: AirMoment;
  readonly to: AirMoment;
}

/** Both nodes at atmospheric pressure, with the pump standing still. */
export function createAir(
  unit: AirUnit,
  atmospherePa: number,
  gasK: number,
  gas: GasModel = ISOTHERMAL,
): AirState {
  return {
    manifoldMol: amountAtMol(gas, atmospherePa, unit.manifoldM3, atmospherePa, gasK),
    injectorMol: amountAtMol(gas, atmospherePa, unit.injectorM3, atmospherePa, gasK),
    manifoldPa: atmospherePa,
    injectorPa: atmospherePa,
    pumpSpeedRatio: 0,
    ledger: { pumpMol: 0, ventMol: 0, reliefMol: 0, sealMol: 0, sourceMol: 0 },
    from: unsetMoment(unit),
    to: unsetMoment(unit),
  };
}

const GAMMA = 1 + Math.SQRT1_2;

/** Steps both nodes and the pump's speed by `dtS` under a constant drive, in place. */
export function stepAir(state: AirState, unit: AirUnit, drive: AirDrive, dtS: number): void {
  const { from, to } = state;
  from.pumpSpeedRatio = state.pumpSpeedRatio;
  from.manifold.amountMol = state.manifoldMol;
  from.injector.amountMol = state.injectorMol;
  from.air.pressurePa = drive.atmospherePa;
  from.air.sonicMolPerM3 = sonicMolPerM3(drive.gasK);
  to.air.pressurePa = from.air.pressurePa;
  to.air.sonicMolPerM3 = from.air.sonicMolPerM3;
  setMoment(from, unit, drive);
  state.pumpSpeedRatio = stepPumpSpeed(
    unit.pump,
    state.pumpSpeedRatio,
    drive.pumpRatio,
    drive.supplyV,
    dtS,
  );
  to.pumpSpeedRatio = state.pumpSpeedRatio;
  solveStages(state, unit, drive, dtS);
  const { gas, gasK, atmospherePa } = drive;
  state.manifoldPa = gasPa(gas, state.manifoldMol, unit.manifoldM3, atmospherePa, gasK);
  state.injectorPa = gasPa(gas, state.injectorMol, unit.injectorM3, atmospherePa, gasK);
}

/**
 * Both stages k of ROS2, (1 - gamma dt J) k = flows, by Cramer's rule. J is with respect to amount:
 * slope over pressure, times the slope of pressure over amount.
 */
function solveStages(state: AirState, unit: AirUnit, drive: AirDrive, dtS: number): void {
  const { from, to } = state;
  const { gas, sourceMolPerS } = drive;
  const mGain = GAMMA * gasSlopePaPerMol(gas, from.manifold.amountMol, from.manifold.pressurePa);
  const iGain = GAMMA * gasSlopePaPerMol(gas, from.injector.amountMol, from.injector.pressurePa);
  const hoseSlope = from.hose.slopeMolPerSPa;
  const openings = from.vent.slopeMolPerSPa + from.manifoldEnd.slopeMolPerSPa;
  const mOut = from.pump.slopeMolPerSPa + from.relief.slopeMolPerSPa + openings + hoseSlope;
  const mm = 1 + dtS * mGain * mOut;
  const ii = 1 + dtS * iGain * (from.seal.slopeMolPerSPa + hoseSlope);
  const mi = dtS * iGain * hoseSlope;
  const im = dtS * mGain * hoseSlope;
  const perDeterminant = dtS / (mm * ii - mi * im);
  const mFlow = intoManifoldMolPerS(from);
  const iFlow = from.seal.molPerS - from.hose.molPerS + sourceMolPerS;
  // dt k1, mol.
  const m1 = perDeterminant * (ii * mFlow + mi * iFlow);
  const i1 = perDeterminant * (mm * iFlow + im * mFlow);
  to.manifold.amountMol = from.manifold.amountMol + m1;
  to.injector.amountMol = from.injector.amountMol + i1;
  setMoment(to, unit, drive);
  const mLeft = intoManifoldMolPerS(to) - (2 * m1) / dtS;
  const iLeft = to.seal.molPerS - to.hose.molPerS + sourceMolPerS - (2 * i1) / dtS;
  // dt k2, mol.
  const m2 = perDeterminant * (ii * mLeft + mi * iLeft);
  const i2 = perDeterminant * (mm * iLeft + im * mLeft);
  book(state, sourceMolPerS, (mGain * (m1 + m2)) / 2, (iGain * (i1 + i2)) / 2, dtS);
}

const intoManifoldMolPerS = ({ pump, vent, manifoldEnd, relief, hose }: AirMoment): number =>
  pump.molPerS + vent.molPerS + manifoldEnd.molPerS + relief.molPerS + hose.molPerS;

/**
 * ROS2 flow by flow: the mean of both ends less the slope times gamma times the stages' mean
 * pressure. The sum is the usual 3/2 k1 + 1/2 k2, and the ledger takes exactly the amounts that the
 * nodes take.
 */
function book(
  state: AirState,
  sourceMolPerS: number,
  manifoldPa: number,
  injectorPa: number,
  dtS: number,
): void {
  const { ledger, from, to } = state;
  const pump = meanMolPerS(from.pump, to.pump, manifoldPa) * dtS;
  const vent = meanMolPerS(from.vent, to.vent, manifoldPa) * dtS;
  const end = meanMolPerS(from.manifoldEnd, to.manifoldEnd, manifoldPa) * dtS;
  const relief = meanMolPerS(from.relief, to.relief, manifoldPa) * dtS;
  const seal = meanMolPerS(from.seal, to.seal, injectorPa) * dtS;
  const hose = meanMolPerS(from.hose, to.hose, manifoldPa - injectorPa) * dtS;
  const source = sourceMolPerS * dtS;
  ledger.pumpMol += pump;
  ledger.ventMol += vent + end;
  ledger.reliefMol += relief;
  ledger.sealMol += seal;
  ledger.sourceMol += source;
  state.manifoldMol += pump + vent + end + relief + hose;
  state.injectorMol += seal - hose + source;
}

const meanMolPerS = (from: Passage, to: Passage, meanPa: number): number =>
  (from.molPerS + to.molPerS) / 2 - from.slopeMolPerSPa * meanPa;

/** Smaller differences count as none, Pa: a hundred-thousandth of the sensor's resolution. */
const REST_PA = 1e-3;

/**
 * Nothing flows: pump off and standing, no gas from the break, both nodes at atmospheric pressure.
 */
export function isAirAtRest(
  { pumpSpeedRatio, manifoldMol, injectorMol }: AirState,
  { pump, manifoldM3, injectorM3 }: AirUnit,
  { pumpRatio, supplyV, sourceMolPerS, gas, atmospherePa, gasK }: AirDrive,
): boolean {
  if (pumpSpeedRatio !== 0 || sourceMolPerS !== 0) return false;
  if (settledSpeedRatio(pump, pumpRatio, supplyV) !== 0) return false;
  const mPa = gasPa(gas, manifoldMol, manifoldM3, atmospherePa, gasK);
  const iPa = gasPa(gas, injectorMol, injectorM3, atmospherePa, gasK);
  return Math.abs(mPa - atmospherePa) < REST_PA && Math.abs(iPa - atmospherePa) < REST_PA;
}
