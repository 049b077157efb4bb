/**
 * The bench of a simulated run: plant, sensors, faults and the person, with the state that they
 * share. It moves when told to; the board contract around it is in `simulated-board.ts`.
 */
import {
  type Actuators,
  type Button,
  type Channel,
  type DisplayLines,
  type Frame,
  SAFE,
  type Switches,
} from '../src/frame.ts';
import {
  applyToActuators,
  applyToCounts,
  applyToSwitches,
  applyToWorld,
  createFaultClock,
  type FaultClock,
  isMute,
  lateByS,
} from './fault-effects.ts';
import type { Fault } from './faults.ts';
import { doHandWork } from './hands.ts';
import {
  type Conditions,
  createPlantState,
  demoResin,
  looksClear,
  type Place,
  type PlantState,
  STEP_S,
  stepPlant,
} from './plant/plant.ts';
import { type Chance, createChance } from './random.ts';
import type { Scenario } from './scenario.ts';
import { drawTolerance, sampleCounts, type Tolerance } from './sensors.ts';
import {
  ALL_REMEDIES,
  createTechnician,
  readScreen,
  type Sight,
  type Technician,
} from './technician.ts';

/** The hard-wired over-pressure switch opens here. */
const OVER_PRESSURE_SWITCH_PA = 200_000;

interface Sample {
  readonly atS: number;
  readonly counts: Readonly<Record<Channel, number>>;
  readonly switches: Switches;
}

export interface Rig {
  readonly scenario: Scenario;
  readonly place: Place;
  readonly plant: PlantState;
  readonly noise: Chance;
  readonly tolerance: Tolerance;
  readonly technician: Technician | null;
  readonly faults: FaultClock;
  /** The counts at which sensors froze, and panes that have been chilled, by fault. */
  readonly stuckAt: Map<Fault, number>;
  readonly chilled: Set<Fault>;
  active: readonly Fault[];
  sequence: number;
  sample: Sample | null;
  pressed: Button[];
  emergencyStop: boolean;
  display: DisplayLines;
  /** What the host asked for last, and what acts after protection and faults. */
  wanted: Actuators;
  acting: Actuators;
}

export function createRig(scenario: Scenario): Rig {
  const place = createPlace(scenario);
  const chance = (purpose: Parameters<typeof createChance>[1]): Chance =>
    createChance(scenario.seed, purpose);
  return {
    scenario,
    place,
    plant: createPlantState(place, scenario.airK, scenario.glassK),
    noise: chance('noise'),
    tolerance: drawTolerance(chance('tolerance')),
    technician: scenario.technician === 'scripted' ? createTechnician(chance('technician')) : null,
    faults: createFaultClock(scenario.faults),
    stuckAt: new Map(),
    chilled: new Set(),
    active: [],
    sequence: 0,
    sample: null,
    pressed: [],
    emergencyStop: false,
    display: ['', '', '', ''],
    wanted: SAFE,
    acting: SAFE,
  };
}

function createPlace(scenario: Scenario): Place {
  // No two breaks of one kind are quite alike.
  const spread = 1 + 0.3 * (createChance(scenario.seed, 'break').uniform() - 0.5);
  return {
    atmospherePa: scenario.atmospherePa,
    gap: { ...scenario.break, escapeS: scenario.break.escapeS * spread },
    resin: demoResin(scenario.resinViscosityPaSAt20C),
  };
}

/** The frame of this moment; a mute link repeats the last sample with its old time. */
export function takeFrame(rig: Rig): Frame {
  const { plant } = rig;
  rig.active = rig.faults.active(plant.timeS, readScreen(rig.display)?.step ?? '');
  if (rig.sample === null || !isMute(rig.active)) rig.sample = takeSample(rig);
  const { atS, counts, switches } = rig.sample;
  const mute = atS < plant.timeS;
  const pressed = mute ? [] : rig.pressed;
  rig.pressed = [];
  return {
    sequence: rig.sequence++,
    timeS: tidyS(plant.timeS),
    sampledAtS: tidyS(atS),
    link: mute ? 'mute' : 'up',
    counts,
    switches,
    pressed,
  };
}

/** Whole milliseconds, as a board's timer counts them. */
const tidyS = (timeS: number): number => Math.round(timeS * 1000) / 1000;

function takeSample(rig: Rig): Sample {
  const { plant, tolerance, noise } = rig;
  const truth = { ...plant.heat, pressurePa: plant.chamberPa, supplyV: plant.supplyV };
  const sound = sampleCounts(truth, tolerance, noise);
  return {
    atS: plant.timeS,
    counts: applyToCounts(sound, rig.active, rig.stuckAt),
    switches: switchesOf(rig),
  };
}

function switchesOf({ plant, place, emergencyStop, active }: Rig): Switches {
  const sound = {
    shieldClosed: plant.bench.shieldClosed,
    overPressureTripped: plant.chamberPa - place.atmospherePa > OVER_PRESSURE_SWITCH_PA,
    emergencyStopPressed: emergencyStop,
  };
  return applyToSwitches(sound, active);
}

export function sightOf({ plant, place }: Rig): Sight {
  return { bubbling: plant.bubbling, clear: looksClear(plant, place) };
}

/** Lets the scripted person look at the display and press what it presses. */
export function letPersonAct(rig: Rig): void {
  const button = rig.technician?.look(rig.plant.timeS, rig.display, sightOf(rig)) ?? null;
  if (button !== null) pressButton(rig, button);
}

/** A button, and the hand work that its press confirms. */
export function pressButton(rig: Rig, button: Button): void {
  const screen = readScreen(rig.display);
  rig.pressed.push(button);
  if (button !== 'yes' || screen === null) return;
  if (screen.kind === 'step') doHandWork(rig.plant.bench, screen.step);
  if (screen.kind === 'step' && screen.step === '4.3') rig.faults.mend(['reseat']);
  if (screen.kind === 'held') rig.faults.mend(ALL_REMEDIES);
}

/** Lets one tick of time pass under `leased` outputs; longer when a fault makes the board late. */
export function letTimePass(rig: Rig, leased: Actuators): void {
  const { scenario, plant, active } = rig;
  const conditions = worldOf(scenario, active);
  for (const fault of active) {
    if (fault.kind !== 'cold-pane' || rig.chilled.has(fault)) continue;
    plant.heat.glassK = conditions.airK;
    rig.chilled.add(fault);
  }
  rig.acting = protect(applyToActuators(leased, active), switchesOf(rig), active);
  const steps = Math.round((scenario.tickS + lateByS(active)) / STEP_S);
  stepPlant(plant, rig.place, rig.acting, conditions, steps);
}

function worldOf({ airK }: Scenario, active: readonly Fault[]): Conditions {
  const sound: Conditions = {
    airK,
    lampAgeRatio: 1,
    glassHeatW: 0,
    heatSinkHeatW: 0,
    sealLeak: false,
    hoseOff: false,
    supplyV: null,
    pumpFlowRatio: 1,
  };
  return applyToWorld(sound, active);
}

/** The hard-wired cut-offs; a welded relay, which `lamp-stuck-on` is, gets past the shield switch. */
function protect(wanted: Actuators, switches: Switches, active: readonly Fault[]): Actuators {
  if (switches.emergencyStopPressed) return SAFE;
  const air = switches.overPressureTripped
    ? { ...wanted, pumpRatio: SAFE.pumpRatio, ventOpen: SAFE.ventOpen }
    : wanted;
  const welded = active.some(({ kind }) => kind === 'lamp-stuck-on');
  return switches.shieldClosed || welded ? air : { ...air, lampEnabled: false, lampRatio: 0 };
}
