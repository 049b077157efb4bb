/**
 * What physics must conserve: the gas and heat now in the unit against the initial amounts and what
 * entered and left. A ratio far above rounding means that a step loses or creates something.
 */
import { crossedMol } from './air/air.ts';
import { enteredJPerM2, storedJPerM2 } from './pane/laminate.ts';
import { breakMol, breakResinM3, gasMol, type Place, type PlantState } from './plant-state.ts';

export interface Imbalance {
  /** Gas unaccounted for, relative to what unit and break hold. */
  readonly gasRatio: number;
  /**
   * Gas that left the break without entering the unit, relative to what a break full of air holds.
   */
  readonly handoverRatio: number;
  /**
   * Heat unaccounted for in the pane and in the lamp's heat sink, relative to all heat that passed
   * through.
   */
  readonly paneHeatRatio: number;
  readonly sinkHeatRatio: number;
  /** Resin unaccounted for, relative to what was put into the injector. */
  readonly resinRatio: number;
}

export function imbalanceOf(state: PlantState, place: Place): Imbalance {
  const { air, filling, givenOffMol, startMol, pane, lamp } = state;
  const carriedMol = breakMol(filling, place, (gap) => gap.carriedMol);
  const cameMol = crossedMol(air.ledger) + givenOffMol + carriedMol;
  const nowMol = gasMol(state, place);
  const givenMol = breakMol(filling, place, (gap) => gap.givenMol);
  const throughPane = Object.values(pane.book).reduce((sum, heat) => sum + Math.abs(heat), 0);
  const { heatSinkJPerK } = place.world.lamp;
  const sinkJ = heatSinkJPerK * (lamp.heatSinkK - state.startSinkK);
  return {
    gasRatio: Math.abs(nowMol - startMol - cameMol) / nowMol,
    handoverRatio: ratio(air.ledger.sourceMol - givenOffMol - givenMol, state.startBreakMol),
    paneHeatRatio: ratio(storedJPerM2(pane) - enteredJPerM2(pane), throughPane),
    sinkHeatRatio: ratio(sinkJ - (lamp.heatInJ - lamp.heatLostJ), lamp.heatInJ),
    resinRatio: ratio(state.resin.chargedM3 - resinM3(state, place), state.resin.chargedM3),
  };
}

/** Wherever it is now: injector, pit, break, and what was lost. */
function resinM3({ resin, filling }: PlantState, place: Place): number {
  const { injectorM3, pitM3, creptM3, foamedM3, wipedM3 } = resin;
  return injectorM3 + pitM3 + creptM3 + foamedM3 + wipedM3 + breakResinM3(filling, place);
}

const ratio = (part: number, whole: number): number => (whole === 0 ? 0 : Math.abs(part) / whole);
