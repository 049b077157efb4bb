/**
 * The bench of a simulated run: plant, sensors, faults and the person, with their shared state. It
 * moves only on request; the board contract around it is in `simulated-board.ts`, the frames in
 * `sampling.ts`.
 */

import {
  type Actuators,
  type Button,
  type DisplayLines,
  type LadderReading,
  SAFE,
  type Switches,
} from '../../src/core/frame.ts';
import { createFaultClock, type FaultClock } from '../faults/fault-clock.ts';
import {
  type ActedS,
  applyToDrivers,
  applyToMechanics,
  applyToSwitches,
  applyToWorld,
  boardClockRatio,
  has,
  switchesCutting,
  switchesRead,
} from '../faults/fault-effects.ts';
import { amountOf } from '../faults/fault-kinds.ts';
import type { Fault } from '../faults/faults.ts';
import type { Scenario } from '../faults/scenario.ts';
import { createSensorMemory, type SensorMemory } from '../faults/sensor-effects.ts';
import { layOutFor } from '../people/hands.ts';
import { readScreen } from '../people/screen-reading.ts';
import { createSlips, type Slips } from '../people/slips.ts';
import { createTechnician, type Technician } from '../people/technician.ts';
import { bringInPane, STEPS_PER_S, stepPlant, timeOfS } from '../plant/plant.ts';
import { createPlantState, type Place, type PlantState } from '../plant/plant-state.ts';
import { type Conditions, soundConditions } from '../plant/setup.ts';
import { createChance, type OwnChance } from '../random.ts';
import { drawLightErrors } from './light-errors.ts';
import { placeOf } from './place-of.ts';
import { createProbe, type Probe, stepProbe } from './probe.ts';
import { cutOff, cutOutOpen, drawCutOutK, overPressureSwitchOpen } from './protection.ts';
import { drawTolerance, type Sample, type Tolerance } from './sensors.ts';

/** Faults, protection and lease are checked this often, even when a frame comes late. */
const LONGEST_RUN_STEPS = 50;

export type PlantWatch = (rig: Rig) => void;

export interface Rig {
  readonly scenario: Scenario;
  readonly place: Place;
  readonly plant: PlantState;
  /** Of the bench while nothing is wrong. */
  readonly sound: Conditions;
  readonly noise: OwnChance;
  readonly tolerance: Tolerance;
  readonly technician: Technician | null;
  /** The glass sensor while it is not on the glass. */
  readonly probe: Probe;
  readonly faults: FaultClock;
  /** Noise of sensors that are faulty, apart from the sound ones'. */
  readonly faultNoise: OwnChance;
  readonly sensorMemory: SensorMemory;
  /** Panes that came in cold or hot, by fault. */
  readonly broughtIn: Set<Fault>;
  active: readonly Fault[];
  /**
   * How far the board's own clock is behind true time, in steps of the plant; whole while it
   * stands.
   */
  boardLagSteps: number;
  sequence: number;
  sample: Sample | null;
  /** Nothing passes over the link in either direction. */
  mute: boolean;
  /** Buttons that fingers have pressed since the last frame, in order, whatever is read of them. */
  fingers: Button[];
  /** Presses that nobody meant. */
  readonly slips: Slips;
  /** What the ladder has settled on. */
  ladder: LadderReading;
  emergencyStop: boolean;
  overPressure: boolean;
  /** The thermal cut-out on the lamp's heat sink: where it opens, and whether it has. */
  readonly cutOutK: number;
  lampTooHot: boolean;
  ambientUvWPerM2: number;
  display: DisplayLines;
  /** Looks at the truth wherever the plant was stepped; null where nobody does. */
  readonly watch: PlantWatch | null;
  /** Outputs that act, after the board's own protection, faults and the hard-wired cut-offs. */
  acting: Actuators;
}

export function createRig(scenario: Scenario, watch: PlantWatch | null = null): Rig {
  const place = placeOf(scenario);
  const chance = (purpose: Parameters<typeof createChance>[1]): OwnChance =>
    createChance(scenario.seed, purpose);
  const sound = soundConditions(scenario.airK);
  const plant = createPlantState(place, scenario.airK, scenario.glassK);
  if (scenario.goesOnAt !== undefined) layOutFor(plant.setup, scenario.goesOnAt);
  const lightErrors = drawLightErrors(chance('light'), scenario.light);
  return {
    scenario,
    place,
    plant,
    sound,
    noise: chance('noise'),
    tolerance: drawTolerance(chance('tolerance'), lightErrors),
    technician:
      scenario.technician === 'scripted'
        ? createTechnician(chance('technician'), scenario.pace)
        : null,
    probe: createProbe(chance('reference')),
    faults: createFaultClock(scenario.faults),
    faultNoise: chance('fault'),
    sensorMemory: createSensorMemory(),
    broughtIn: new Set(),
    active: [],
    boardLagSteps: 0,
    sequence: 0,
    sample: null,
    mute: false,
    fingers: [],
    slips: createSlips(),
    ladder: 'released',
    emergencyStop: false,
    overPressure: false,
    cutOutK: drawCutOutK(chance('cut-out')),
    lampTooHot: false,
    ambientUvWPerM2: sound.ambientUvWPerM2,
    display: ['', '', '', ''],
    watch,
    acting: SAFE,
  };
}

/**
 * A second bench in the same state, with other faults from now on: what is at hand once can be
 * tried with many. Nothing of it is shared that changes.
 */
export function copyRig(rig: Rig, faults: readonly Fault[], watch: PlantWatch | null): Rig {
  const scenario = { ...rig.scenario, faults };
  return {
    ...rig,
    scenario,
    watch,
    place: placeOf(scenario),
    plant: structuredClone(rig.plant),
    probe: { ...rig.probe },
    noise: rig.noise.copy(),
    faultNoise: rig.faultNoise.copy(),
    technician: rig.technician?.copy() ?? null,
    faults: createFaultClock(faults),
    sensorMemory: createSensorMemory(),
    broughtIn: new Set(),
    fingers: [...rig.fingers],
    slips: rig.slips.copy(),
  };
}

/** For how long each fault that acts now has acted. */
export const actedS =
  ({ faults, plant }: Rig): ActedS =>
  (fault) =>
    faults.actedS(fault, timeOfS(plant));

/** As the switches truly are. */
export function truePositionsOf({ plant, emergencyStop, overPressure, active }: Rig): Switches {
  const sound = {
    shieldClosed: plant.setup.shieldClosed,
    overPressureTripped: overPressure || plant.setup.switchPumped,
    emergencyStopPressed: emergencyStop || plant.setup.stopPressed,
  };
  return applyToSwitches(sound, active);
}

/** As the board reads their contacts. */
export const switchesReadOf = (rig: Rig): Switches =>
  switchesRead(truePositionsOf(rig), rig.active);

/** Determines the faults that act now; `rig.mute` and everything they change follow from it. */
export function lookAtFaults(rig: Rig): void {
  rig.active = rig.faults.active(timeOfS(rig.plant), readScreen(rig.display)?.step ?? null);
  rig.mute = has('link-mute', rig.active);
}

/**
 * Lets `steps` of a millisecond pass, with the board driving what `drive` returns. It is called
 * again wherever `pauseAt` says so and at least every `LONGEST_RUN_STEPS`.
 */
export function letTimePass(
  rig: Rig,
  steps: number,
  drive: () => Actuators,
  pauseAt: () => number = () => Number.POSITIVE_INFINITY,
): void {
  const { plant } = rig;
  const untilStep = plant.step + steps;
  const conditions = applyToWorld(rig.sound, rig.active, actedS(rig));
  rig.ambientUvWPerM2 = conditions.ambientUvWPerM2;
  bringIn(rig);
  rig.boardLagSteps += (1 - boardClockRatio(rig.active)) * steps;
  stepProbe(rig.probe, plant.setup.bath, plant.pane.outerK, steps / STEPS_PER_S);
  while (plant.step < untilStep) {
    act(rig, drive());
    const pauseIn = pauseAt() - plant.step;
    const run = Math.min(untilStep - plant.step, LONGEST_RUN_STEPS);
    stepPlant(plant, rig.place, rig.acting, conditions, pauseIn > 0 ? Math.min(run, pauseIn) : run);
    rig.watch?.(rig);
  }
}

/** From the board's drive to what acts: a stuck driver is cut off, a stuck valve is not. */
export function act(rig: Rig, driven: Actuators): void {
  const { plant, place, active } = rig;
  rig.overPressure = overPressureSwitchOpen(
    rig.overPressure,
    plant.air.manifoldPa - place.atmospherePa,
  );
  const cutting = switchesCutting(truePositionsOf(rig), active);
  rig.lampTooHot = cutOutOpen(rig.lampTooHot, plant.lamp.heatSinkK, rig.cutOutK);
  const lampTooHot = rig.lampTooHot && !has('cut-out-shorted', active);
  const powered = cutOff(applyToDrivers(driven, active), cutting, lampTooHot);
  rig.acting = applyToMechanics(powered, active, actedS(rig));
}

/** A pane brought in from the cold or the sun starts at that temperature, once. */
function bringIn({ plant, place, active, broughtIn }: Rig): void {
  for (const fault of active) {
    const { kind } = fault;
    if ((kind !== 'cold-pane' && kind !== 'hot-pane') || broughtIn.has(fault)) continue;
    bringInPane(plant, place, amountOf(fault));
    broughtIn.add(fault);
  }
}
