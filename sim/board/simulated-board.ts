/**
 * The simulated board: the rig behind the board contract, in lock-step. A tick emits the frame of
 * this moment, during which the controller writes its outputs; then the person at the bench looks
 * at the display, and only then does time pass. Simulated time advances by waiting.
 */
import { Subject } from 'rxjs';
import { type Board, BoardClosedError, type BoardIdentity, isSound } from '../../hal/board.ts';
import type { Actuators, Button, Frame, Outputs, Switches } from '../../src/core/frame.ts';
import { isReset, lateByS } from '../faults/fault-effects.ts';
import type { Fault } from '../faults/faults.ts';
import type { Scenario } from '../faults/scenario.ts';
import { type Imbalance, imbalanceOf } from '../plant/balance.ts';
import { clarityRatio, longestFrontRatio } from '../plant/break/sight.ts';
import { curedDepthM } from '../plant/light/cure.ts';
import { STEPS_PER_S } from '../plant/plant.ts';
import { tipDangerOf } from '../plant/tip-danger.ts';
import {
  type BoardModel,
  type BoardSees,
  clearTrips,
  drivenBy,
  glassSeen,
  MODEL_START,
  restarted,
  stepModel,
  takeOutputs,
} from './board-model.ts';
import { letPersonAct, pressButton, sightOf } from './person-at-rig.ts';
import { bathK } from './probe.ts';
import {
  act,
  actedS,
  copyRig,
  createRig,
  letTimePass,
  lookAtFaults,
  type PlantWatch,
  type Rig,
  switchesReadOf,
  truePositionsOf,
} from './rig.ts';
import { takeFrame } from './sampling.ts';

export interface BreakView {
  /** What a person looking through the glass sees. */
  readonly bubbling: boolean;
  readonly filledRatio: number;
  /** How far resin has come in the longest gap, 0 to 1. */
  readonly longestFrontRatio: number;
  /** The cured face sticks to a finger; null before light has fallen on it. */
  readonly tacky: boolean | null;
  readonly clear: boolean;
  /** Resin still stands in the injector. */
  readonly resinLeft: boolean;
  readonly shieldClosed: boolean;
  /** The true state, for checks. */
  readonly truth: {
    /** In the injector, over the break. */
    readonly pressurePa: number;
    readonly irradianceWPerM2: number;
    readonly doseJPerM2: number;
    /** Light of the lamp that reached the resin of each portion: under its film, off the axis. */
    readonly resinDose: {
      readonly fillJPerM2: number;
      /** In the fields of a crack after the first. */
      readonly laterJPerM2: readonly number[];
      readonly pitJPerM2: number;
    };
    readonly glassK: number;
    /** Temperature of the bath that holds the glass sensor; null while it is on the glass. */
    readonly bathK: number | null;
    readonly heatSinkK: number;
    readonly interlayerK: number;
    readonly curedDepthM: number;
    readonly pitCuredDepthM: number;
    /**
     * Stress intensity at the tip of the longest gap, relative to the value at which a crack begins
     * to creep.
     */
    readonly slowGrowthRatio: () => number;
    readonly imbalance: () => Imbalance;
    /** Outputs as they act, after the board's own protection and any fault. */
    readonly acting: Actuators;
    /** As the switches truly are, whatever is read of them. */
    readonly positions: Switches;
  };
}

export interface SimulatedBoard extends Board {
  /** A second board in the same state, with other faults from now on. */
  readonly fork: (faults: readonly Fault[], watch: PlantWatch | null) => SimulatedBoard;
  /** One tick of board time. */
  readonly tick: () => void;
  readonly press: (button: Button) => void;
  readonly toggleEmergencyStop: () => void;
  readonly toggleShield: () => void;
  readonly view: () => BreakView;
}

const LEASE_S = 0.5;
const LEASE_STEPS = Math.round(LEASE_S * STEPS_PER_S);

function createIdentity({ seed, tickS }: Scenario): BoardIdentity {
  return {
    kind: 'simulated board',
    serial: `sim-${seed}`,
    firmware: 'simulated',
    tickS,
    leaseS: LEASE_S,
    protection: ['lease', 'over-pressure-switch', 'shield', 'emergency-stop', 'glass-hot'],
  };
}

export const createSimulatedBoard = (scenario: Scenario): SimulatedBoard =>
  boardOn(createRig(scenario), MODEL_START);

function boardOn(rig: Rig, begun: BoardModel): SimulatedBoard {
  const { scenario } = rig;
  const identity = createIdentity(scenario);
  const frames$ = new Subject<Frame>();
  let model = begun;
  let closed = false;
  const take = (wanted: Outputs | null): void => {
    model = takeOutputs(model, wanted, rig.plant.step, LEASE_STEPS);
    if (wanted?.clearTrips) model = clearTrips(model, seenBy(rig));
  };
  const drive = (): Actuators => {
    model = stepModel(model, seenBy(rig), rig.plant.step);
    return drivenBy(model);
  };
  const makeSafe = (): void => {
    take(null);
    act(rig, drive());
  };
  return {
    identity,
    fork: (faults, watch) => boardOn(copyRig(rig, faults, watch), model),
    frames$: frames$.asObservable(),
    write: (outputs) => {
      if (closed) throw new BoardClosedError();
      if (rig.mute) return;
      rig.display = outputs.display;
      if (isSound(outputs)) take(outputs);
      else makeSafe();
    },
    makeSafe,
    close: async () => {
      if (closed) return;
      closed = true;
      makeSafe();
      frames$.complete();
    },
    tick: () => {
      if (closed) return;
      lookAtFaults(rig);
      if (isReset(rig.active, actedS(rig), scenario.tickS)) model = restarted();
      frames$.next(takeFrame(rig, model.trips));
      letPersonAct(rig);
      letTimePass(rig, tickSteps(rig), drive, () => model.leasedUntilStep);
    },
    press: (button) => pressButton(rig, button),
    toggleEmergencyStop: () => {
      rig.emergencyStop = !rig.emergencyStop;
    },
    toggleShield: () => {
      rig.plant.setup.shieldClosed = !rig.plant.setup.shieldClosed;
    },
    view: () => viewOf(rig),
  };
}

/** Its switches now; its converter's latest sample, which is a tick old at most. */
const seenBy = (rig: Rig): BoardSees => ({
  switches: switchesReadOf(rig),
  glass: glassSeen(rig.sample?.counts.glassTemperature ?? null, rig.scenario.glassFloor),
});

/** One tick; longer when a fault makes the next frame late. */
const tickSteps = ({ scenario, active }: Rig): number =>
  Math.round((scenario.tickS + lateByS(active)) * STEPS_PER_S);

/** What can be seen at the bench, and the true state. */
export function viewOf(rig: Rig): BreakView {
  const { bubbling, clear, tacky, resinLeft } = sightOf(rig);
  return {
    bubbling,
    clear,
    tacky,
    resinLeft,
    shieldClosed: rig.plant.setup.shieldClosed,
    filledRatio: clarityRatio(rig.plant.filling, rig.place.world.break),
    longestFrontRatio: longestFrontRatio(rig.plant.filling, rig.place.world.break),
    truth: truthOf(rig),
  };
}

function truthOf(rig: Rig): BreakView['truth'] {
  const { plant, place, acting, probe } = rig;
  const { air, lamp, pane, cure, pit } = plant;
  return {
    pressurePa: air.injectorPa,
    irradianceWPerM2: lamp.irradianceWPerM2,
    doseJPerM2: lamp.doseJPerM2,
    resinDose: plant.resinDose,
    glassK: pane.outerK,
    bathK: plant.setup.bath === null ? null : bathK(probe, plant.setup.bath),
    heatSinkK: lamp.heatSinkK,
    interlayerK: pane.interlayerK,
    curedDepthM: curedDepthM(cure, place.world.curing),
    pitCuredDepthM: curedDepthM(pit, place.world.curing),
    slowGrowthRatio: () => tipDangerOf(plant, place).slowGrowthRatio,
    imbalance: () => imbalanceOf(plant, place),
    acting,
    positions: truePositionsOf(rig),
  };
}
