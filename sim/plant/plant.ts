/**
 * The simulated unit's physics in one place: steps air, break, glass and lamp together at 1 ms. It
 * knows hands (seal, hose, resin, film) and what faults change, but neither sensors nor controller.
 */
import type { Actuators } from '../../src/frame.ts';
import {
  capillaryPa,
  DEMO_RESIN,
  emptyFilling,
  escapePerS,
  type Filling,
  type Gap,
  type Resin,
  stepFilling,
  viscosityPaS,
} from './break-filling.ts';
import { type HeatAndLight, type Surroundings, stepHeatAndLight } from './heat-and-light.ts';
import {
  compressionKgPerS,
  evacuationKgPerS,
  type Pump,
  type Restriction,
  restrictionKgPerS,
  stepChamberPa,
  stepPumpSpeed,
} from './pneumatics.ts';

export const STEPS_PER_S = 1000;
const STEP_S = 1 / STEPS_PER_S;

/** Demo unit. */
const CHAMBER_M3 = 30e-6;
const PUMP: Pump = {
  freeFlowM3PerS: 1.5e-3 / 60,
  greatestRatio: 12.5,
  deadHeadPa: 230_000,
  stallRatio: 0.08,
  startLagS: 0.08,
  ratedV: 12,
};
const VENT: Restriction = { sonicConductance: 2e-9, criticalRatio: 0.3 };
/** A seal that holds; a ring with grit or a scratch under it; a hose that is off. */
const SEAL_CONDUCTANCE = { tight: 5e-14, loose: 2e-12, open: 1e-8 } as const;
const SEAL_CRITICAL_RATIO = 0.3;
/** Leaving faster than this share a second, gas is seen as bubbles. */
const VISIBLE_BUBBLES_PER_S = 0.006;
/** The eye calls a break clear when less of its length than this is dark; demo. */
const CLEAR_DARK_RATIO = 0.04;
const SUPPLY_V = 12.6;
const SUPPLY_SAG_V = 0.4;

/** What hands have done. */
export interface Bench {
  sealed: boolean;
  hoseOn: boolean;
  charged: boolean;
  /** The injector is off and the break is closed by pit resin and film. */
  pitFilled: boolean;
  shieldClosed: boolean;
}

/** What faults change in the world, each tick. */
export interface Conditions extends Surroundings {
  readonly sealLeak: boolean;
  readonly hoseOff: boolean;
  readonly supplyV: number | null;
  readonly pumpFlowRatio: number;
}

export interface PlantState {
  /** Steps since the start: whole, so that time does not gather rounding errors. */
  step: number;
  chamberPa: number;
  pumpSpeedRatio: number;
  supplyV: number;
  bubbling: boolean;
  readonly filling: Filling;
  readonly heat: HeatAndLight;
  readonly bench: Bench;
}

export interface Place {
  readonly atmospherePa: number;
  readonly gap: Gap;
  readonly resin: Resin;
}

export function createPlantState(
  { atmospherePa, gap }: Place,
  airK: number,
  glassK: number,
): PlantState {
  return {
    step: 0,
    chamberPa: atmospherePa,
    pumpSpeedRatio: 0,
    supplyV: SUPPLY_V,
    bubbling: false,
    filling: emptyFilling(gap, atmospherePa),
    heat: { glassK, heatSinkK: airK, lampRatio: 0, irradianceWPerM2: 0, doseJPerM2: 0 },
    bench: {
      sealed: false,
      hoseOn: false,
      charged: false,
      pitFilled: false,
      shieldClosed: false,
    },
  };
}

/** Time since the start; whole milliseconds, as a board's timer counts them. */
export const timeOfS = ({ step }: PlantState): number => step / STEPS_PER_S;

export function demoResin(viscosityPaSAt20C: number): Resin {
  return { ...DEMO_RESIN, viscosityPaSAt20C };
}

/** Steps everything by `steps` times 1 ms under constant outputs, in place. */
export function stepPlant(
  state: PlantState,
  place: Place,
  outputs: Actuators,
  conditions: Conditions,
  steps: number,
): void {
  const { atmospherePa, gap, resin } = place;
  const { bench, filling, heat } = state;
  const gasK = conditions.airK;
  // Slow things once a tick: they change by less than a thousandth in it.
  const viscosity = viscosityPaS(resin, heat.glassK);
  const capillary = capillaryPa(gap.apertureM, resin);
  const seal = sealOf(bench, conditions);
  const fillable = bench.charged && bench.sealed && !bench.pitFilled;
  const driveRatio = outputs.lampEnabled ? outputs.lampRatio : 0;
  state.supplyV = (conditions.supplyV ?? SUPPLY_V) - SUPPLY_SAG_V * state.pumpSpeedRatio;
  for (let step = 0; step < steps; step++) {
    state.pumpSpeedRatio = stepPumpSpeed(
      PUMP,
      state.pumpSpeedRatio,
      outputs.pumpRatio,
      state.supplyV,
      STEP_S,
    );
    stepAir(state, outputs, seal, conditions.pumpFlowRatio, atmospherePa, gasK);
    if (fillable) {
      const drive = { chamberPa: state.chamberPa, atmospherePa, capillaryPa: capillary, viscosity };
      stepFilling(filling, gap, drive, STEP_S);
    }
    stepHeatAndLight(heat, driveRatio, conditions, STEP_S);
  }
  const share = filling.gasPaM / (atmospherePa * gap.lengthM);
  const leaving = share * escapePerS(gap, state.chamberPa, atmospherePa, viscosity);
  state.bubbling = fillable && leaving > VISIBLE_BUBBLES_PER_S;
  state.step += steps;
}

/** One step of the chamber pressure under what the pump and the openings do. */
function stepAir(
  state: PlantState,
  { selector, ventOpen }: Actuators,
  seal: Restriction,
  pumpFlowRatio: number,
  atmospherePa: number,
  gasK: number,
): void {
  const { chamberPa } = state;
  const speed = state.pumpSpeedRatio * pumpFlowRatio;
  const pumped =
    selector === 'vacuum'
      ? -evacuationKgPerS(PUMP, speed, chamberPa, atmospherePa, gasK)
      : compressionKgPerS(PUMP, speed, chamberPa, atmospherePa, gasK);
  const leaked = restrictionKgPerS(seal, atmospherePa, chamberPa, gasK);
  const vented = ventOpen ? restrictionKgPerS(VENT, atmospherePa, chamberPa, gasK) : 0;
  const through = leaked + vented;
  state.chamberPa = stepChamberPa(
    chamberPa,
    atmospherePa,
    pumped,
    through,
    CHAMBER_M3,
    gasK,
    STEP_S,
  );
}

function sealOf({ sealed, hoseOn }: Bench, { sealLeak, hoseOff }: Conditions): Restriction {
  const closed = sealed && hoseOn && !hoseOff;
  const kind = closed ? (sealLeak ? 'loose' : 'tight') : 'open';
  return { sonicConductance: SEAL_CONDUCTANCE[kind], criticalRatio: SEAL_CRITICAL_RATIO };
}

export const filledRatio = ({ filling }: PlantState, { gap }: Place): number =>
  Math.min(1, filling.frontM / gap.lengthM);

export const looksClear = (state: PlantState, place: Place): boolean =>
  1 - filledRatio(state, place) < CLEAR_DARK_RATIO;
