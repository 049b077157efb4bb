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
import type { PhaseId } from '../../src/core/phases.ts';
import { createFaultClock, type FaultClock } from '../faults/fault-clock.ts';
import {
  type ActedS,
  applyToDrivers,
  applyToMechanics,
  applyToSight,
  applyToSwitches,
  applyToWorld,
  boardClockRatio,
  has,
  switchesCutting,
  switchesRead,
} from '../faults/fault-effects.ts';
import { amountOf } from '../faults/fault-kinds.ts';
import { type Fault, REMEDIES, type Remedy } from '../faults/faults.ts';
import type { Scenario } from '../faults/scenario.ts';
import { createSensorMemory, type SensorMemory } from '../faults/sensor-effects.ts';
import { doGuidedHandWork } from '../people/guided-hands.ts';
import { doHandWork } from '../people/hands.ts';
import { isPhase, readScreen, type SeenStep } from '../people/screen-reading.ts';
import { createTechnician, type Sight, type Technician } from '../people/technician.ts';
import { isDry } from '../plant/break/injector.ts';
import { looksClear } from '../plant/break/sight.ts';
import { surfaceTacky } from '../plant/light/cure.ts';
import { bringInPane, openChamber, STEPS_PER_S, stepPlant, timeOfS } from '../plant/plant.ts';
import { createPlantState, type Place, type PlantState, partUnder } from '../plant/plant-state.ts';
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
  const lightErrors = drawLightErrors(chance('light'), scenario.light);
  return {
    scenario,
    place,
    plant: createPlantState(place, scenario.airK, scenario.glassK),
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

export function sightOf({ plant, place }: Rig): Sight {
  return {
    bubbling: plant.bubbling,
    clear: looksClear(plant.filling, place.world.break, partLookedAt(plant, place)),
    tacky: tackyOf(plant, place),
    resinLeft: !isDry(plant.resin),
  };
}

/** The part under the injector, and the whole crack once it is off. */
const partLookedAt = (plant: PlantState, place: Place): number | undefined =>
  plant.setup.injectorOff ? undefined : partUnder(plant, place);

/** For the uppermost resin: of several fields, the one that has set least. */
function tackyOf(
  { setup, cure, laterCures, pit }: PlantState,
  { world: { curing } }: Place,
): boolean | null {
  const uppermost = [setup.pitFilled ? pit : cure, ...laterCures];
  if (uppermost.some((one) => one.exposureJPerM2 <= curing.criticalJPerM2)) return null;
  return uppermost.some((one) => surfaceTacky(one, curing));
}

/** Lets the scripted person look at the display and press a button. */
export function letPersonAct(rig: Rig): void {
  const says = applyToSight(sightOf(rig), rig.active);
  const button = rig.technician?.look(timeOfS(rig.plant), rig.display, says) ?? null;
  if (button !== null) pressButton(rig, button);
}

/** Faults that the hand work of a step repairs. */
const MENDED_IN: Readonly<Partial<Record<PhaseId, readonly Remedy[]>>> = {
  reseat: ['reseat'],
  recharge: ['recharge'],
  'dry-again': ['dry'],
  'test-again': ['reseat'],
  'move-injector': ['reseat'],
};

/** A button, and the hand work that its press confirms. */
export function pressButton(rig: Rig, button: Button): void {
  const screen = readScreen(rig.display);
  rig.fingers.push(button);
  if (button !== 'yes' || screen === null) return;
  if (screen.kind === 'held') rig.faults.mend(REMEDIES);
  if (screen.kind === 'step' && screen.step !== null) confirmStep(rig, screen.step);
}

function confirmStep(rig: Rig, step: SeenStep): void {
  if (!isPhase(step)) {
    doGuidedHandWork(rig.plant.setup, step);
    return;
  }
  if (has('hands-idle', rig.active)) return;
  doHandWork(rig.plant.setup, step);
  if (has('film-left-off', rig.active)) rig.plant.setup.filmOn = false;
  const mended = MENDED_IN[step];
  if (mended === undefined) return;
  rig.faults.mend(mended);
  // The foot was lifted off the glass for it.
  openChamber(rig.plant);
}

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
