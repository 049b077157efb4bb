/**
 * The flows between manifold, injector and atmosphere at one moment, and how steeply each flow
 * responds to the pressures. `air.ts` steps them in time.
 */
import type { Selector } from '../../../src/core/frame.ts';
import type { AirUnit } from './air-unit.ts';
import {
  type GasSide,
  type Passage,
  type Restriction,
  setPassage,
  shutPassage,
  sonicMolPerM3,
} from './flow.ts';
import { addBlowBy, type Foot } from './foot.ts';
import { type GasModel, gasPa, nodeK } from './gas-model.ts';
import {
  compressionMolPerS,
  compressionSlopeMolPerSPa,
  evacuationMolPerS,
  evacuationSlopeMolPerSPa,
} from './pump.ts';
import { liftPerPa, liftRatio } from './relief.ts';

export interface AirDrive {
  /** Drive of the pump, 0 to 1. */
  readonly pumpRatio: number;
  readonly selector: Selector;
  readonly ventOpen: boolean;
  readonly supplyV: number;
  /** Share of its swept flow that a worn pump still moves, 0 to 1. */
  readonly pumpFlowRatio: number;
  readonly atmospherePa: number;
  readonly gasK: number;
  /** As it is pressed on at present, and the foot that may lift; null where none stands there. */
  readonly seal: Restriction;
  readonly foot: Foot | null;
  readonly hoseOn: boolean;
  /** Between the manifold and the air while the hose is on; null where there is none. */
  readonly manifoldLeak: Restriction | null;
  readonly gas: GasModel;
  /**
   * Gas that the break gives to the injector; negative where it takes gas, never more than is
   * there.
   */
  readonly sourceMolPerS: number;
}

/** Gas in one node; a `GasSide` for the restrictions at it. */
export interface AirNode {
  readonly volumeM3: number;
  amountMol: number;
  pressurePa: number;
  sonicMolPerM3: number;
}

/** One moment. Amounts, pump speed and the outside air are given; the rest follows. */
export interface AirMoment {
  readonly air: { pressurePa: number; sonicMolPerM3: number };
  readonly manifold: AirNode;
  readonly injector: AirNode;
  pumpSpeedRatio: number;
  /** All positive into the unit, and for the hose from injector to manifold. */
  readonly pump: Passage;
  readonly vent: Passage;
  readonly manifoldEnd: Passage;
  readonly relief: Passage;
  readonly seal: Passage;
  readonly hose: Passage;
}

/** NaN, so that an unset field is noticed and every field holds a float from the start. */
const UNSET = Number.NaN;
const unsetNode = (volumeM3: number): AirNode => ({
  volumeM3,
  amountMol: UNSET,
  pressurePa: UNSET,
  sonicMolPerM3: UNSET,
});
const unsetPassage = (): Passage => ({ molPerS: UNSET, slopeMolPerSPa: UNSET });

export const unsetMoment = ({ manifoldM3, injectorM3 }: AirUnit): AirMoment => ({
  air: { pressurePa: UNSET, sonicMolPerM3: UNSET },
  manifold: unsetNode(manifoldM3),
  injector: unsetNode(injectorM3),
  pumpSpeedRatio: UNSET,
  pump: unsetPassage(),
  vent: unsetPassage(),
  manifoldEnd: unsetPassage(),
  relief: unsetPassage(),
  seal: unsetPassage(),
  hose: unsetPassage(),
});

/** Computes what follows from the given values. */
export function setMoment(moment: AirMoment, unit: AirUnit, drive: AirDrive): void {
  const { air, manifold, injector } = moment;
  setNode(manifold, air, drive);
  setNode(injector, air, drive);
  setPump(moment, unit, drive);
  setRelief(moment, unit);
  if (drive.ventOpen) setPassage(moment.vent, unit.vent, air, manifold);
  else shutPassage(moment.vent);
  if (drive.hoseOn) {
    if (drive.manifoldLeak === null) shutPassage(moment.manifoldEnd);
    else setPassage(moment.manifoldEnd, drive.manifoldLeak, air, manifold);
    setPassage(moment.seal, drive.seal, air, injector);
    if (drive.foot !== null) addBlowBy(moment.seal, drive.foot, air, injector);
    setPassage(moment.hose, unit.hose, injector, manifold);
  } else {
    setPassage(moment.manifoldEnd, unit.openEnd, air, manifold);
    setPassage(moment.seal, unit.openEnd, air, injector);
    shutPassage(moment.hose);
  }
}

function setNode(node: AirNode, air: GasSide, { gas, gasK }: AirDrive): void {
  const { amountMol, volumeM3 } = node;
  const pressurePa = gasPa(gas, amountMol, volumeM3, air.pressurePa, gasK);
  node.pressurePa = pressurePa;
  node.sonicMolPerM3 =
    gas.exponent === 1
      ? air.sonicMolPerM3
      : sonicMolPerM3(nodeK(gas, amountMol, pressurePa, volumeM3, gasK));
}

function setPump(
  { air, manifold, pumpSpeedRatio, pump }: AirMoment,
  unit: AirUnit,
  { selector, pumpFlowRatio, gas, gasK }: AirDrive,
): void {
  const { amountMol, pressurePa, volumeM3 } = manifold;
  const atmospherePa = air.pressurePa;
  const speed = pumpSpeedRatio * pumpFlowRatio;
  if (speed === 0) {
    shutPassage(pump);
  } else if (selector === 'vacuum') {
    const inletK = nodeK(gas, amountMol, pressurePa, volumeM3, gasK);
    pump.molPerS = -evacuationMolPerS(unit.pump, speed, pressurePa, atmospherePa, inletK);
    pump.slopeMolPerSPa = evacuationSlopeMolPerSPa(
      unit.pump,
      speed,
      pressurePa,
      atmospherePa,
      inletK,
    );
  } else {
    pump.molPerS = compressionMolPerS(unit.pump, speed, pressurePa, atmospherePa, gasK);
    pump.slopeMolPerSPa = -compressionSlopeMolPerSPa(
      unit.pump,
      speed,
      pressurePa,
      atmospherePa,
      gasK,
    );
  }
}

function setRelief({ air, manifold, relief }: AirMoment, unit: AirUnit): void {
  const lift = liftRatio(unit.relief, manifold.pressurePa, air.pressurePa);
  if (lift === 0) {
    shutPassage(relief);
    return;
  }
  setPassage(relief, unit.relief.open, air, manifold);
  // The flow grows with the lift as well, and more steeply.
  relief.slopeMolPerSPa =
    lift * relief.slopeMolPerSPa - liftPerPa(unit.relief, lift) * relief.molPerS;
  relief.molPerS *= lift;
}
