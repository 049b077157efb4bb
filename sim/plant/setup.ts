/**
 * What acts on the plant besides the board's outputs: hands, and the faults of the surroundings.
 */

/** What hands have done. */
export interface Setup {
  sealed: boolean;
  hoseOn: boolean;
  /** A gauge or a blank plate closes the hose in place of the foot: nothing lifts it. */
  plugged: boolean;
  charged: boolean;
  /** How often it was charged again, and how often the foot was lifted off the glass. */
  recharges: number;
  lifts: number;
  /** Parts of a crack that injector and lamp have moved on by. */
  injectorAt: number;
  lampAt: number;
  /** Taken off the filled break for good. */
  injectorOff: boolean;
  /** The pit is levelled with resin of its own. */
  pitFilled: boolean;
  filmOn: boolean;
  shieldClosed: boolean;
  /** The vehicle was brought into a hall of this temperature for the glass; null where it stood. */
  hallAirK: number | null;
  /** The emergency stop is in. */
  stopPressed: boolean;
  /** A hand pump on its own port holds the over-pressure switch open. */
  switchPumped: boolean;
  /** The bath of the glass sensor while it is not on the glass. */
  bath: 'ice' | 'warm' | null;
}

/** What faults change in the surroundings, each tick. */
export interface Conditions {
  readonly airK: number;
  /** Share of its initial output that an aged lamp still gives. */
  readonly lampAgeRatio: number;
  /** Heat put straight into the worked spot, W. */
  readonly glassHeatW: number;
  /** Warm air blown onto the spot; null while there is none. */
  readonly airGunK: number | null;
  /** Sun on the whole pane. */
  readonly sunWPerM2: number;
  /** Heat of the burning lamp beyond its power, as with a driver at fault, W. */
  readonly heatSinkHeatW: number;
  /** What hands put in at a charge, m3; null for the plant's own. */
  readonly chargeM3: number | null;
  readonly sealLeak: boolean;
  readonly hoseOff: boolean;
  /** Water in the break; contamination on its faces that outgasses. */
  readonly wetBreak: boolean;
  readonly outgassing: boolean;
  readonly supplyV: number | null;
  readonly pumpFlowRatio: number;
  /** Daylight at the break that acts on the resin, W/m2. */
  readonly ambientUvWPerM2: number;
  /** Shares of their sound flow that vent and hose let through, 0 to 1. */
  readonly ventFlowRatio: number;
  readonly hoseFlowRatio: number;
  /** Of the manifold to the air, past selector or hose: sonic conductance, m3/(s Pa). */
  readonly manifoldLeak: number;
  /** Gauge pressure at which the relief valve lifts; null as it was built. */
  readonly reliefCracksPa: number | null;
  /** The foot is held off the glass. */
  readonly injectorLifted: boolean;
  /** What a clamp that was not turned home presses the foot down with, N; null for the plant's own. */
  readonly clampN: number | null;
  /** Share of the lamp's light that falls on the break, 0 to 1. */
  readonly lampOnBreakRatio: number;
}

/** A bench away from windows under lamps; demo. */
const INDOOR_UV_W_PER_M2 = 0.02;

/** Nothing is wrong. */
export const soundConditions = (airK: number): Conditions => ({
  airK,
  lampAgeRatio: 1,
  glassHeatW: 0,
  airGunK: null,
  sunWPerM2: 0,
  heatSinkHeatW: 0,
  chargeM3: null,
  sealLeak: false,
  hoseOff: false,
  wetBreak: false,
  outgassing: false,
  supplyV: null,
  pumpFlowRatio: 1,
  ambientUvWPerM2: INDOOR_UV_W_PER_M2,
  ventFlowRatio: 1,
  hoseFlowRatio: 1,
  manifoldLeak: 0,
  reliefCracksPa: null,
  injectorLifted: false,
  clampN: null,
  lampOnBreakRatio: 1,
});
