/**
 * The air side: one chamber (with hose and injector) at constant temperature, a diaphragm pump with
 * check valves, and restrictions after ISO 6358. Pressures are absolute; flows are mass flows. What
 * is commanded is decided by the board.
 */

/** Dry air, J/(kg K). */
export const GAS_CONSTANT_AIR = 287.05;
/** Reference state of ISO 6358: 20 C, 100 kPa, 65 % relative humidity (from memory). */
export const REFERENCE_DENSITY_KG_PER_M3 = 1.185;
export const REFERENCE_K = 293.15;

/** Sonic conductance in m3/(s Pa) and critical pressure ratio. */
export interface Restriction {
  readonly sonicConductance: number;
  readonly criticalRatio: number;
}

/**
 * Mass flow in kg/s from `upstreamPa` to `downstreamPa`, negative when it runs the other way. ISO
 * 6358-1: choked up to the critical ratio, a quarter ellipse above it.
 */
export function restrictionKgPerS(
  { sonicConductance, criticalRatio }: Restriction,
  upstreamPa: number,
  downstreamPa: number,
  gasK: number,
): number {
  const highPa = Math.max(upstreamPa, downstreamPa);
  if (highPa <= 0) return 0;
  const sonic =
    sonicConductance * highPa * REFERENCE_DENSITY_KG_PER_M3 * Math.sqrt(REFERENCE_K / gasK);
  const choked = downstreamPa > upstreamPa ? -sonic : sonic;
  const ratio = Math.min(upstreamPa, downstreamPa) / highPa;
  if (ratio <= criticalRatio) return choked;
  const past = (ratio - criticalRatio) / (1 - criticalRatio);
  return choked * Math.sqrt(1 - past * past);
}

export interface Pump {
  /** Swept volume flow at full drive and rated supply, m3/s. */
  readonly freeFlowM3PerS: number;
  /** Greatest ratio of outlet to inlet pressure: sets the ultimate vacuum at any altitude. */
  readonly greatestRatio: number;
  /** Greatest pressure over the atmosphere, Pa. */
  readonly deadHeadPa: number;
  /** A drive below this does not turn the motor. */
  readonly stallRatio: number;
  readonly startLagS: number;
  readonly ratedV: number;
}

/** Mass flow of what the pump takes in at `inletPa`, kg/s; nothing once its efficiency is used up. */
function deliveredKgPerS(
  { freeFlowM3PerS }: Pump,
  speedRatio: number,
  efficiency: number,
  inletPa: number,
  gasK: number,
): number {
  const sweptM3PerS = freeFlowM3PerS * speedRatio * Math.min(1, Math.max(0, efficiency));
  return (sweptM3PerS * inletPa) / (GAS_CONSTANT_AIR * gasK);
}

/** kg/s drawn out of a chamber at `chamberPa` against the atmosphere; never negative. */
export function evacuationKgPerS(
  pump: Pump,
  speedRatio: number,
  chamberPa: number,
  atmospherePa: number,
  gasK: number,
): number {
  const ratio = atmospherePa / chamberPa;
  const efficiency = 1 - (ratio - 1) / (pump.greatestRatio - 1);
  return deliveredKgPerS(pump, speedRatio, efficiency, chamberPa, gasK);
}

/** kg/s pressed into a chamber at `chamberPa` from the atmosphere; never negative. */
export function compressionKgPerS(
  pump: Pump,
  speedRatio: number,
  chamberPa: number,
  atmospherePa: number,
  gasK: number,
): number {
  const efficiency = 1 - (chamberPa - atmospherePa) / pump.deadHeadPa;
  return deliveredKgPerS(pump, speedRatio, efficiency, atmospherePa, gasK);
}

/** Motor speed ratio after `dtS`, following the drive with a first-order lag. */
export function stepPumpSpeed(
  pump: Pump,
  speedRatio: number,
  driveRatio: number,
  supplyV: number,
  dtS: number,
): number {
  const wanted = driveRatio < pump.stallRatio ? 0 : (driveRatio * supplyV) / pump.ratedV;
  return speedRatio + ((wanted - speedRatio) * dtS) / (pump.startLagS + dtS);
}

/**
 * Chamber pressure after `dtS`, Pa; isothermal ideal gas. What the pump moves is taken as it is now;
 * what flows to or from the atmosphere is taken at the end of the step, because near equilibrium the
 * quarter ellipse is infinitely steep and an explicit step would swing about it.
 */
export function stepChamberPa(
  chamberPa: number,
  atmospherePa: number,
  pumpedKgPerS: number,
  throughOpeningsKgPerS: number,
  volumeM3: number,
  gasK: number,
  dtS: number,
): number {
  const paPerKgPerS = (GAS_CONSTANT_AIR * gasK * dtS) / volumeM3;
  const apartPa = atmospherePa - chamberPa;
  const slope = apartPa === 0 ? 0 : (paPerKgPerS * throughOpeningsKgPerS) / apartPa;
  return chamberPa + (paPerKgPerS * (pumpedKgPerS + throughOpeningsKgPerS)) / (1 + slope);
}
