/** One vessel of the plant's air side, for closed forms: manifold alone, hose shut, relief valve away. */
import { type AirState, createAir, stepAir } from '../../../sim/plant/air/air.ts';
import type { AirDrive } from '../../../sim/plant/air/air-flows.ts';
import { type AirUnit, DEMO_AIR_UNIT } from '../../../sim/plant/air/air-unit.ts';
import type { Restriction } from '../../../sim/plant/air/flow.ts';
import { amountAtMol, ISOTHERMAL } from '../../../sim/plant/air/gas-model.ts';

export const GAS_K = 293.15;
export const AIR_PA = 101_325;
/** So small that nothing passes. */
export const SHUT: Restriction = { sonicConductance: 1e-30, criticalRatio: 0.3 };

export const vesselUnit = (volumeM3: number, parts: Partial<AirUnit> = {}): AirUnit => ({
  ...DEMO_AIR_UNIT,
  manifoldM3: volumeM3,
  hose: SHUT,
  relief: { cracksPa: 1e8, fullPa: 2e8, open: SHUT },
  ...parts,
});

export const STILL: AirDrive = {
  pumpRatio: 0,
  selector: 'vacuum',
  ventOpen: false,
  supplyV: 12,
  pumpFlowRatio: 1,
  atmospherePa: AIR_PA,
  gasK: GAS_K,
  seal: SHUT,
  hoseOn: true,
  foot: null,
  manifoldLeak: null,
  gas: ISOTHERMAL,
  sourceMolPerS: 0,
};

/** Both nodes at one pressure, and the pump at its speed from the start where it is on. */
export function vesselAt(unit: AirUnit, drive: AirDrive, startPa: number): AirState {
  const { gas, gasK, atmospherePa } = drive;
  const state = createAir(unit, atmospherePa, gasK, gas);
  state.manifoldMol = amountAtMol(gas, startPa, unit.manifoldM3, atmospherePa, gasK);
  state.injectorMol = amountAtMol(gas, startPa, unit.injectorM3, atmospherePa, gasK);
  state.manifoldPa = startPa;
  state.injectorPa = startPa;
  state.pumpSpeedRatio = drive.pumpRatio;
  return state;
}

/** Manifold pressure after a time, Pa. */
export function pressureAfterPa(
  unit: AirUnit,
  drive: AirDrive,
  startPa: number,
  timeS: number,
  dtS: number,
): number {
  const state = vesselAt(unit, drive, startPa);
  const steps = Math.round(timeS / dtS);
  for (let i = 0; i < steps; i++) stepAir(state, unit, drive, dtS);
  return state.manifoldPa;
}

/** Time until the manifold has fallen to `toPa`, between steps by straight line, s. */
export function timeToFallS(
  unit: AirUnit,
  drive: AirDrive,
  startPa: number,
  toPa: number,
  dtS: number,
): number {
  const state = vesselAt(unit, drive, startPa);
  for (let i = 0; i < 1e7; i++) {
    const beforePa = state.manifoldPa;
    stepAir(state, unit, drive, dtS);
    if (state.manifoldPa <= toPa) {
      return (i + (beforePa - toPa) / (beforePa - state.manifoldPa)) * dtS;
    }
  }
  return Number.NaN;
}
