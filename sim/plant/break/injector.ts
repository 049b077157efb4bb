/**
 * The resin in the injector as an amount that is used up: the pit and the break take what fills
 * them, pressure makes some creep past the ring, vacuum draws some off as foam, and a foot that is
 * lifted leaves some on the glass. It books volumes and decides when the injector is dry;
 * `break.ts` decides what a dry injector does to the break.
 */
import { z } from 'zod';
import { quantity } from '../../../src/core/settings.ts';

export interface Injector {
  /** What hands put in at each charge, m³. */
  readonly chargeM3: number;
  /** Past a sound ring, and off as foam: per second and pascal, at the reference viscosity. */
  readonly creepM3PerSPa: number;
  readonly foamM3PerSPa: number;
  /** Share that stays on the glass each time the foot is lifted off it. */
  readonly leftOnGlassRatio: number;
}

/** Where the resin is, m³; what was put in is always the sum of the rest and of the break's. */
export interface InjectorState {
  chargedM3: number;
  injectorM3: number;
  pitM3: number;
  creptM3: number;
  foamedM3: number;
  wipedM3: number;
  /** Pressure at which the resin in the injector is saturated with air. */
  airPa: number;
  /** Charges and lifts of the foot that have been booked. */
  charges: number;
  lifts: number;
}

const M3_PER_UL = 1e-9;
/** From microlitres a minute at 100 kPa. */
const M3_PER_S_PA = M3_PER_UL / 60 / 100_000;
const REFERENCE_VISCOSITY_PA_S = 0.05;
/** So little wets the walls and does not reach the mouth of the break; demo. */
const CLINGS_M3 = 0.2 * M3_PER_UL;
/** Grit under the ring lets this many times as much creep past; demo. */
const GRIT_TIMES = 10;
/** What blows by under a lifted foot takes this many times as much along; demo. */
const LIFTED_TIMES = 50;

const creepTimes = ({ grit, lifted }: { readonly grit: boolean; readonly lifted: boolean }) =>
  lifted ? LIFTED_TIMES : grit ? GRIT_TIMES : 1;

export const injectorSchema = z
  .strictObject({
    chargeUl: quantity(0.3, 500, 'µL'),
    creepUlPerMinAt100KPa: quantity(0, 1000, 'µL/min'),
    foamUlPerMinAt100KPa: quantity(0, 1000, 'µL/min'),
    leftOnGlassPercent: quantity(0, 100, '%'),
  })
  .transform(
    (file): Injector => ({
      chargeM3: file.chargeUl * M3_PER_UL,
      creepM3PerSPa: file.creepUlPerMinAt100KPa * M3_PER_S_PA,
      foamM3PerSPa: file.foamUlPerMinAt100KPa * M3_PER_S_PA,
      leftOnGlassRatio: file.leftOnGlassPercent / 100,
    }),
  );

/** Demo: four drops of 20 µL (3 to 5 drops are common practice), and losses made up for them. */
export const DEMO_INJECTOR: Injector = injectorSchema.parse({
  chargeUl: 80,
  creepUlPerMinAt100KPa: 2,
  foamUlPerMinAt100KPa: 1,
  leftOnGlassPercent: 50,
});

export const createInjectorState = (): InjectorState => ({
  chargedM3: 0,
  injectorM3: 0,
  pitM3: 0,
  creptM3: 0,
  foamedM3: 0,
  wipedM3: 0,
  airPa: 0,
  charges: 0,
  lifts: 0,
});

export const isDry = ({ injectorM3 }: InjectorState): boolean => injectorM3 <= CLINGS_M3;

/** Volume of a pit as a bowl (paraboloid), m³. */
export const pitM3Of = (acrossM: number, depthM: number): number =>
  (Math.PI / 8) * acrossM ** 2 * depthM;

/** Books what hands have done since: each charge replaces what is left, each lift leaves some. */
export function bookHands(
  state: InjectorState,
  { chargeM3, leftOnGlassRatio }: Injector,
  done: { readonly charges: number; readonly lifts: number },
  atmospherePa: number,
): void {
  while (state.lifts < done.lifts) {
    state.lifts += 1;
    wipe(state, leftOnGlassRatio * state.injectorM3);
  }
  while (state.charges < done.charges) {
    state.charges += 1;
    wipe(state, state.injectorM3);
    state.injectorM3 = chargeM3;
    // It has stood in the air.
    state.airPa = atmospherePa;
    state.chargedM3 += chargeM3;
  }
}

function wipe(state: InjectorState, volumeM3: number): void {
  state.injectorM3 -= volumeM3;
  state.wipedM3 += volumeM3;
}

/** Under vacuum its air leaves as bubbles, under pressure it soaks in from the surface; demo. */
const DEGASSING_S = 60;
const SOAKING_S = 2000;

/** Where the air in the resin tends under a pressure, after `dtS`. */
export function airPaAfter(airPa: number, injectorPa: number, dtS: number): number {
  const timeS = injectorPa < airPa ? DEGASSING_S : SOAKING_S;
  return injectorPa + (airPa - injectorPa) * Math.exp(-dtS / timeS);
}

/** Lets the resin in the injector give off air or take it up; mol/s into the gas over it. */
export function stepResinAir(
  state: InjectorState,
  injectorPa: number,
  solubilityMolPerM3Pa: number,
  dtS: number,
): number {
  const fromPa = state.airPa;
  state.airPa = airPaAfter(fromPa, injectorPa, dtS);
  return (solubilityMolPerM3Pa * state.injectorM3 * (fromPa - state.airPa)) / dtS;
}

/** The pit below the injector fills first. */
export function fillPit(state: InjectorState, pitM3: number): void {
  const takenM3 = Math.min(pitM3 - state.pitM3, Math.max(0, state.injectorM3 - CLINGS_M3));
  if (takenM3 <= 0) return;
  state.injectorM3 -= takenM3;
  state.pitM3 += takenM3;
}

/** What went into the break, or came back out of it, in a step. */
export function takeIntoBreak(state: InjectorState, volumeM3: number): void {
  state.injectorM3 -= volumeM3;
}

/** What a step loses past the ring under pressure, or as foam under vacuum. */
export function stepLosses(
  state: InjectorState,
  { creepM3PerSPa, foamM3PerSPa }: Injector,
  over: {
    readonly gaugePa: number;
    readonly viscosityPaS: number;
    readonly grit: boolean;
    readonly lifted: boolean;
  },
  dtS: number,
): void {
  const { gaugePa, viscosityPaS } = over;
  const thinness = REFERENCE_VISCOSITY_PA_S / viscosityPaS;
  const perSPa = gaugePa > 0 ? creepM3PerSPa * thinness * creepTimes(over) : foamM3PerSPa;
  const room = Math.max(0, state.injectorM3 - CLINGS_M3);
  const lostM3 = Math.min(room, perSPa * Math.abs(gaugePa) * dtS);
  state.injectorM3 -= lostM3;
  if (gaugePa > 0) state.creptM3 += lostM3;
  else state.foamedM3 += lostM3;
}
