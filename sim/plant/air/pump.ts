/**
 * Curves of a diaphragm pump with check valves. In suction it is limited by the maximum ratio of
 * outlet to inlet pressure, in compression by its dead head; in both its flow falls linearly to
 * that limit and never reverses. The board decides direction and drive.
 */
import { z } from 'zod';
import { quantity } from '../../../src/core/settings.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from './gas-constant.ts';

export interface Pump {
  /** Swept volume flow at rated voltage, m3/s. */
  readonly freeFlowM3PerS: number;
  /** Maximum ratio of outlet to inlet pressure: it sets the ultimate vacuum at any altitude. */
  readonly greatestRatio: number;
  /** Maximum gauge pressure, Pa. */
  readonly deadHeadPa: number;
  /** The motor stalls below this share of its rated voltage. */
  readonly stallRatio: number;
  readonly startLagS: number;
  readonly ratedV: number;
}

const M3_PER_S_PER_L_PER_MIN = 1e-3 / 60;

export const pumpSchema = z
  .strictObject({
    freeFlowLPerMin: quantity(0.1, 20, 'L/min'),
    greatestRatio: quantity(1.5, 100, ''),
    deadHeadKPa: quantity(50, 1000, 'kPa'),
    stallRatio: quantity(0, 0.5, ''),
    startLagS: quantity(0.005, 2, 's'),
    ratedV: quantity(3, 48, 'V'),
  })
  .transform(
    ({ freeFlowLPerMin, deadHeadKPa, ...rest }): Pump => ({
      freeFlowM3PerS: freeFlowLPerMin * M3_PER_S_PER_L_PER_MIN,
      deadHeadPa: deadHeadKPa * 1000,
      ...rest,
    }),
  );

/** Below this speed friction stops a motor that is switched off; demo. */
const STANDSTILL_RATIO = 1e-4;

/** Steady speed of the motor for a drive of 0 to 1; 1 is full drive at rated voltage. */
export function settledSpeedRatio(
  { stallRatio, ratedV }: Pump,
  driveRatio: number,
  supplyV: number,
): number {
  const voltageRatio = (driveRatio * supplyV) / ratedV;
  return voltageRatio < stallRatio ? 0 : voltageRatio;
}

/** Motor speed ratio after `dtS`: the exact solution of a first-order lag. */
export function stepPumpSpeed(
  pump: Pump,
  speedRatio: number,
  driveRatio: number,
  supplyV: number,
  dtS: number,
): number {
  const settled = settledSpeedRatio(pump, driveRatio, supplyV);
  if (speedRatio === settled) return settled;
  if (settled === 0 && speedRatio < STANDSTILL_RATIO) return 0;
  return settled + (speedRatio - settled) * Math.exp(-dtS / pump.startLagS);
}

/**
 * mol/s drawn from gas at `chamberPa` and `chamberK` against the atmosphere; never negative. Swept
 * volume at inlet pressure, times an efficiency of 1 - (atmosphere/inlet - 1)/(greatest ratio - 1).
 */
export function evacuationMolPerS(
  pump: Pump,
  speedRatio: number,
  chamberPa: number,
  atmospherePa: number,
  chamberK: number,
): number {
  const slope = evacuationSlopeMolPerSPa(pump, speedRatio, chamberPa, atmospherePa, chamberK);
  return chamberPa >= atmospherePa
    ? slope * chamberPa
    : slope * Math.max(0, chamberPa - atmospherePa / pump.greatestRatio);
}

/** Slope of `evacuationMolPerS` over the chamber's pressure, mol/(s Pa); never negative. */
export function evacuationSlopeMolPerSPa(
  { freeFlowM3PerS, greatestRatio }: Pump,
  speedRatio: number,
  chamberPa: number,
  atmospherePa: number,
  chamberK: number,
): number {
  if (greatestRatio * chamberPa <= atmospherePa) return 0;
  const sweptM3PerS = freeFlowM3PerS * speedRatio;
  return chamberPa >= atmospherePa
    ? sweptM3PerS / (GAS_CONSTANT_J_PER_MOL_K * chamberK)
    : (sweptM3PerS * greatestRatio) / ((greatestRatio - 1) * GAS_CONSTANT_J_PER_MOL_K * chamberK);
}

/** mol/s pumped from the atmosphere (at `airK`) into a chamber at `chamberPa`; never negative. */
export function compressionMolPerS(
  pump: Pump,
  speedRatio: number,
  chamberPa: number,
  atmospherePa: number,
  airK: number,
): number {
  const { freeFlowM3PerS, deadHeadPa } = pump;
  const perPa =
    (freeFlowM3PerS * speedRatio * atmospherePa) / (deadHeadPa * GAS_CONSTANT_J_PER_MOL_K * airK);
  const leftPa = deadHeadPa + atmospherePa - chamberPa;
  return perPa * Math.min(Math.max(leftPa, 0), deadHeadPa);
}

/** Slope of `compressionMolPerS` over the chamber's pressure, mol/(s Pa); never positive. */
export function compressionSlopeMolPerSPa(
  { freeFlowM3PerS, deadHeadPa }: Pump,
  speedRatio: number,
  chamberPa: number,
  atmospherePa: number,
  airK: number,
): number {
  const abovePa = chamberPa - atmospherePa;
  if (abovePa >= deadHeadPa || abovePa <= 0) return 0;
  return (
    -(freeFlowM3PerS * speedRatio * atmospherePa) / (deadHeadPa * GAS_CONSTANT_J_PER_MOL_K * airK)
  );
}
