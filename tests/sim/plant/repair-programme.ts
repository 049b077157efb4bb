/**
 * A pressure programme for the tests of breaks: vacuum, pressure and rest, in cycles, by hand. The
 * demo programme's figures are common practice with no source.
 */
import {
  type Break,
  type BreakDrive,
  type BreakState,
  createBreakState,
  stepBreak,
} from '../../../sim/plant/break/break.ts';
import { airPaAfter } from '../../../sim/plant/break/injector.ts';
import { demoResinOf } from '../../../sim/plant/break/resin.ts';
import { clarityRatio, looksClear } from '../../../sim/plant/break/sight.ts';
import { viscosityPaS } from '../../../sim/plant/break/viscosity.ts';
import { kFromCelsius } from '../../../src/core/units.ts';

export const ATMOSPHERE_PA = 101_325;
/** Longer than the plant's 1 ms, for short tests; `break.test.ts` holds the two to each other. */
const STEP_S = 0.01;

export interface Programme {
  readonly vacuumPa: number;
  readonly vacuumS: number;
  readonly pressurePa: number;
  readonly pressureS: number;
  readonly restS: number;
  readonly cycles: number;
}

export const DEMO_PROGRAMME: Programme = {
  vacuumPa: 25_000,
  vacuumS: 60,
  pressurePa: ATMOSPHERE_PA + 138_000,
  pressureS: 150,
  restS: 20,
  cycles: 2,
};

export function demoDrive(
  injectorPa: number,
  glassC: number,
  viscosityPaSAt20C = 0.05,
): BreakDrive {
  const resin = demoResinOf(viscosityPaSAt20C);
  return {
    injectorPa,
    gasK: kFromCelsius(glassC),
    viscosityPaS: viscosityPaS(resin.viscosity, kFromCelsius(glassC)),
    adhesionNPerM: resin.adhesionNPerM,
    solubilityMolPerM3Pa: resin.solubilityMolPerM3Pa,
    diffusionM2PerS: resin.diffusionM2PerS,
    resinAirPa: ATMOSPHERE_PA,
    wet: true,
    dry: false,
    gelled: false,
  };
}

/** Steps through a time at constant pressure. */
export function hold(
  state: BreakState,
  brk: Break,
  drive: BreakDrive,
  seconds: number,
  stepS = STEP_S,
): void {
  const steps = Math.round(seconds / stepS);
  for (let i = 0; i < steps; i++) stepBreak(state, brk, drive, stepS);
}

/** Clarity and the eye's verdict after the rest of each cycle. */
export function repair(
  brk: Break,
  glassC: number,
  changes: Partial<Programme> = {},
  viscosityPaSAt20C = 0.05,
): { readonly state: BreakState; readonly clear: boolean[]; readonly clarity: number[] } {
  const programme = { ...DEMO_PROGRAMME, ...changes };
  const state = createBreakState(brk, ATMOSPHERE_PA, kFromCelsius(glassC));
  const clear: boolean[] = [];
  const clarity: number[] = [];
  let resinAirPa = ATMOSPHERE_PA;
  const under = (pa: number, seconds: number): void => {
    resinAirPa = airPaAfter(resinAirPa, pa, seconds);
    hold(state, brk, { ...demoDrive(pa, glassC, viscosityPaSAt20C), resinAirPa }, seconds);
  };
  for (let cycle = 0; cycle < programme.cycles; cycle++) {
    under(programme.vacuumPa, programme.vacuumS);
    under(programme.pressurePa, programme.pressureS);
    under(ATMOSPHERE_PA, programme.restS);
    clear.push(looksClear(state, brk));
    clarity.push(clarityRatio(state, brk));
  }
  return { state, clear, clarity };
}
