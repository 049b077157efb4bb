/**
 * The simulated unit's physics in one place. Air and break are stepped together at 1 ms while
 * anything moves in them; lamp, pane, cure and moisture are slow and are stepped once a run or
 * less, each by a method that is exact or stable over it. It knows hands (seal, hose, resin, film)
 * and the effects of faults, but neither sensors nor controller.
 */
import type { Actuators } from '../../src/core/frame.ts';
import { crossedMol, isAirAtRest, stepAir } from './air/air.ts';
import type { AirDrive } from './air/air-flows.ts';
import { wornUnit } from './air/air-unit.ts';
import type { Restriction } from './air/flow.ts';
import { type Foot, pressedRestriction } from './air/foot.ts';
import { GRIT_CONDUCTANCE, NO_SEAL } from './air/seal.ts';
import { type BreakDrive, stepBreak } from './break/break.ts';
import { isDry, stepResinAir } from './break/injector.ts';
import { stepMoisture } from './break/moisture.ts';
import { bubbling } from './break/sight.ts';
import { viscosityPaS } from './break/viscosity.ts';
import { type RatiosNow, ratiosNow, stepLaterFields } from './lamp-places.ts';
import { type CuringLight, gelled, reachingRatio, stepCure } from './light/cure.ts';
import { stepLamp, underFilm } from './light/lamp.ts';
import { setViscosityRatio, stepOpenResin } from './light/open-resin.ts';
import { createLaminate, DEMO_SPOT, stepLaminate } from './pane/laminate.ts';
import {
  breakK,
  clampedFoot,
  type Place,
  type PlantState,
  partUnder,
  SUPPLY_V,
} from './plant-state.ts';
import { loseResin, takeHandsResin } from './resin-book.ts';
import type { Conditions } from './setup.ts';

export const STEPS_PER_S = 1000;
const STEP_S = 1 / STEPS_PER_S;
/** Pane and resin are slow: they are stepped this often, with the mean of what reached them. */
const SLOW_STEPS = 200;
/**
 * Resin in gaps of micrometres moves in seconds: at constant pressure even steps of 10 ms stay
 * within 2e-4 of the gap of steps of 1 ms (see the tests). The air receives its gas evenly over the
 * step.
 */
const BREAK_STEPS = 5;
const SUPPLY_SAG_V = 0.4;
/** Area of the worked spot, into which a heater's watts go. */
const SPOT_M2 = Math.PI * DEMO_SPOT.spotRadiusM ** 2;
/** For a jet of warm air from a hand's breadth; demo. */
const AIR_GUN_W_PER_M2_K = 80;
/** A fine leak, as the seal's; demo. */
const LEAK = { criticalRatio: 0.3 } as const;
/** Water in a wet break: more than any test removes. */
const WET_MOL = 1e-3;

/** Time since the start; whole milliseconds, as a board's timer counts them. */
export const timeOfS = ({ step }: PlantState): number => step / STEPS_PER_S;

/** The pane was brought in from elsewhere and has one temperature throughout. */
export function bringInPane(state: PlantState, { world }: Place, glassK: number): void {
  state.pane = createLaminate(world.pane, glassK);
}

/** The foot was lifted off the glass: the chamber holds the room's air. */
export function openChamber({ moisture }: PlantState): void {
  moisture.vapourMol = 0;
  moisture.outgasMol = 0;
}

/** Steps everything by `steps` times 1 ms under constant outputs, in place. */
export function stepPlant(
  state: PlantState,
  place: Place,
  outputs: Actuators,
  conditions: Conditions,
  steps: number,
): void {
  const { lamp } = place.world;
  state.supplyV = (conditions.supplyV ?? SUPPLY_V) - SUPPLY_SAG_V * state.air.pumpSpeedRatio;
  const { airK, lampAgeRatio: ageRatio, heatSinkHeatW } = conditions;
  const driveRatio = outputs.lampEnabled ? outputs.lampRatio : 0;
  const lampDrive = {
    driveRatio,
    airK,
    ageRatio,
    // It is the lamp's: without its supply it gives none.
    heatSinkHeatW: driveRatio > 0 ? heatSinkHeatW : 0,
    distanceM: lamp.referenceDistanceM,
  };
  stepLamp(state.lamp, lamp, lampDrive, steps * STEP_S);
  const resinBeforeM3 = takeHandsResin(state, place, conditions);
  stepGas(state, place, outputs, conditions, steps);
  loseResin(state, place, conditions, resinBeforeM3, steps * STEP_S);
  state.step += steps;
  if (state.step - state.slowStep >= SLOW_STEPS) stepSlowly(state, place, conditions);
}

/** Air and break. */
function stepGas(
  state: PlantState,
  place: Place,
  outputs: Actuators,
  conditions: Conditions,
  steps: number,
): void {
  const { air, filling } = state;
  const { world } = place;
  const unit = wornUnit(world.air, conditions);
  const breakDrive = breakDriveOf(state, place, conditions);
  const airDrive = airDriveOf(state, place, outputs, conditions);
  const dtS = steps * STEP_S;
  const ofResin = breakDrive.wet
    ? stepResinAir(state.resin, air.injectorPa, breakDrive.solubilityMolPerM3Pa, dtS)
    : 0;
  const givenOff = ofResin + stepGivenOff(state, place, conditions, dtS);
  state.givenOffMol += givenOff * dtS;
  state.bubbling = false;
  if (!breakDrive.wet) {
    // Nothing is stiff: the break takes the whole run at once.
    airDrive.sourceMolPerS = givenOff + stepBreak(filling, world.break, breakDrive, steps * STEP_S);
    if (isAirAtRest(air, unit, airDrive)) return;
    for (let step = 0; step < steps; step++) stepAir(air, unit, airDrive, STEP_S);
    return;
  }
  for (let step = 0; step < steps; ) {
    const last = Math.min(steps, step + BREAK_STEPS);
    breakDrive.injectorPa = air.injectorPa;
    airDrive.sourceMolPerS =
      givenOff + stepBreak(filling, world.break, breakDrive, (last - step) * STEP_S);
    for (; step < last; step++) stepAir(air, unit, airDrive, STEP_S);
  }
  const under = partUnder(state, place);
  state.bubbling = bubbling(filling, world.break, place.atmospherePa, conditions.airK, under);
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };

function breakDriveOf(
  state: PlantState,
  { world }: Place,
  { airK, injectorLifted }: Conditions,
): Writable<BreakDrive> {
  const { setup, openResin } = state;
  const { resin, curing } = world;
  const under = partUnder(state, { world });
  const standsOver = setup.charged && setup.sealed && !injectorLifted && !setup.injectorOff;
  const dry = isDry(state.resin);
  return {
    ...(under !== undefined && { under }),
    injectorPa: state.air.injectorPa,
    gasK: airK,
    viscosityPaS:
      viscosityPaS(resin.viscosity, breakK(state)) *
      setViscosityRatio(openResin.conversion, curing),
    adhesionNPerM: resin.adhesionNPerM,
    solubilityMolPerM3Pa: resin.solubilityMolPerM3Pa,
    diffusionM2PerS: resin.diffusionM2PerS,
    resinAirPa: state.resin.airPa,
    wet: standsOver && !dry,
    dry: standsOver && dry,
    gelled: openResin.conversion >= curing.gelConversion || gelled(state.cure, curing),
  };
}

function airDriveOf(
  state: PlantState,
  place: Place,
  { pumpRatio, selector, ventOpen }: Actuators,
  conditions: Conditions,
): Writable<AirDrive> {
  const { supplyV, setup } = state;
  const { atmospherePa, world } = place;
  const { pumpFlowRatio, airK, sealLeak, hoseOff, manifoldLeak } = conditions;
  const foot = clampedFoot(setup, world, conditions);
  return {
    pumpRatio,
    selector,
    ventOpen,
    supplyV,
    pumpFlowRatio,
    atmospherePa,
    gasK: airK,
    seal: sealOf(state, place, foot, sealLeak),
    foot,
    hoseOn: setup.hoseOn && !hoseOff,
    manifoldLeak: manifoldLeak === 0 ? null : { ...LEAK, sonicConductance: manifoldLeak },
    gas: world.gas,
    sourceMolPerS: 0,
  };
}

/** What closes the chamber: the foot on the glass, or the joint of a hose that is plugged. */
function sealOf(
  { air, setup }: PlantState,
  { atmospherePa, world }: Place,
  foot: Foot | null,
  leaks: boolean,
): Restriction {
  const gritConductance = leaks ? GRIT_CONDUCTANCE : 0;
  // The joint is as tight as a sound foot that no pressure lifts.
  if (setup.plugged) return pressedRestriction(world.foot, 0, gritConductance);
  if (foot === null) return NO_SEAL;
  return pressedRestriction(foot, air.injectorPa - atmospherePa, gritConductance);
}

/** Vapour and gas that break and faces release, mol/s; none on clean, dry glass. */
function stepGivenOff(
  state: PlantState,
  { world }: Place,
  { airK, wetBreak, outgassing }: Conditions,
  dtS: number,
): number {
  const { moisture, air, setup } = state;
  moisture.waterMol = wetBreak ? WET_MOL : 0;
  const inflowMol = crossedMol(air.ledger);
  const outflowMolPerS = (state.inflowMol - inflowMol) / dtS;
  state.inflowMol = inflowMol;
  if (!setup.sealed || !setup.hoseOn) {
    openChamber(state);
    return 0;
  }
  if (!wetBreak && !outgassing && moisture.vapourMol + moisture.outgasMol === 0) return 0;
  return stepMoisture(moisture, outgassing ? world.moisture : { ...world.moisture, outgasPa: 0 }, {
    glassK: breakK(state),
    gasK: airK,
    unitM3: world.air.manifoldM3 + world.air.injectorM3,
    unitTotalMol: air.manifoldMol + air.injectorMol,
    outflowMolPerS,
    dtS,
  });
}

/** Pane, and resin that is exposed or curing. */
function stepSlowly(state: PlantState, place: Place, conditions: Conditions): void {
  const { world } = place;
  const { setup, surroundings, lamp } = state;
  const dtS = (state.step - state.slowStep) * STEP_S;
  const lampWPerM2 = (conditions.lampOnBreakRatio * (lamp.doseJPerM2 - state.slowDoseJPerM2)) / dtS;
  state.slowStep = state.step;
  state.slowDoseJPerM2 = lamp.doseJPerM2;
  const airK = setup.hallAirK ?? conditions.airK;
  surroundings.outerAirK = airK;
  surroundings.innerAirK = airK;
  surroundings.outerRadiantK = airK;
  surroundings.innerRadiantK = airK;
  surroundings.lampWPerM2 = lampWPerM2;
  surroundings.gunWPerM2K = conditions.airGunK === null ? 0 : AIR_GUN_W_PER_M2_K;
  surroundings.gunK = conditions.airGunK ?? airK;
  surroundings.sunWPerM2 = conditions.sunWPerM2;
  surroundings.heaterWPerM2 = conditions.glassHeatW / SPOT_M2;
  stepLaminate(state.pane, surroundings, dtS);
  const ambientUvWPerM2 = setup.shieldClosed ? 0 : conditions.ambientUvWPerM2;
  if (setup.injectorOff) {
    const irradianceWPerM2 = underFilm(world.lamp, lampWPerM2, setup.filmOn);
    const light = { irradianceWPerM2, ambientUvWPerM2, covered: setup.filmOn };
    const ratios = ratiosNow(state, place);
    bookDose(state, ratios, irradianceWPerM2 * dtS);
    stepFillAndPit(state, place, ratios, light, dtS);
    stepLaterFields(state, ratios, light, place.world.curing, dtS);
  } else if (setup.charged || setup.injectorAt > 0) {
    stepOpenResin(state.openResin, world.curing, ambientUvWPerM2, dtS);
  }
}

/** Light of the lamp that reached the uppermost resin: the pit's where there is one. */
function bookDose(
  { setup, resinDose, fillBelowPit }: PlantState,
  lit: RatiosNow,
  onAxisJPerM2: number,
): void {
  if (setup.pitFilled) resinDose.pitJPerM2 += onAxisJPerM2 * lit.pitRatio;
  if (setup.pitFilled && fillBelowPit) return;
  resinDose.fillJPerM2 += onAxisJPerM2 * lit.fillRatio;
  lit.laterRatios.forEach((ratio, i) => {
    resinDose.laterJPerM2[i] = (resinDose.laterJPerM2[i] ?? 0) + onAxisJPerM2 * ratio;
  });
}

/**
 * Off the axis there is less light than on it. The pit receives the light directly. The fill receives
 * what the pit transmits where it had set before the pit was made; where liquid, it is one body with
 * the pit, and its depths begin at their common face.
 */
function stepFillAndPit(
  state: PlantState,
  { world: { curing, pitDepthM } }: Place,
  lit: RatiosNow,
  light: CuringLight,
  dtS: number,
): void {
  const { setup, cure, pit } = state;
  const onAxisWPerM2 = light.irradianceWPerM2;
  const onFill = { ...light, irradianceWPerM2: onAxisWPerM2 * lit.fillRatio };
  if (!setup.pitFilled) state.fillBelowPit = gelled(cure, curing);
  else stepCure(pit, curing, { ...light, irradianceWPerM2: onAxisWPerM2 * lit.pitRatio }, dtS);
  if (!setup.pitFilled || !state.fillBelowPit) {
    stepCure(cure, curing, onFill, dtS);
    return;
  }
  const through = reachingRatio(curing, pitDepthM);
  const irradianceWPerM2 = onFill.irradianceWPerM2 * through;
  const ambientUvWPerM2 = light.ambientUvWPerM2 * through;
  stepCure(cure, curing, { irradianceWPerM2, ambientUvWPerM2, covered: true }, dtS);
}
