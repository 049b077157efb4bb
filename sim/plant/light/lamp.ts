/**
 * The lamp: drive to light at the glass, and the heat in its heat sink. Output follows the drive
 * with a lag, droops with the heat sink's temperature, ages, falls with the square of the distance
 * and loses a little in the cover film. Lag, heat sink and dose are exact solutions for a constant
 * drive, so a step may last as long as the drive stays constant. The board decides whether the lamp
 * may be on; `cure.ts` models the effect of the light.
 */
import { z } from 'zod';
import { quantity } from '../../../src/core/settings.ts';
import { kFromCelsius, wPerM2FromMWPerCm2 } from '../../../src/core/units.ts';
import { DEMO_FILM, DEMO_LAMP_BAND, weightedMean } from './spectrum.ts';

/** The ranges keep the lag far below the heat sink's own time, as the exact solution requires. */
export const lampSchema = z
  .strictObject({
    /**
     * At the glass, new, at full drive, at the reference distance and the rated heat sink
     * temperature.
     */
    fullMWPerCm2: quantity(1, 200, 'mW/cm2'),
    /**
     * All of it is assumed to warm the heat sink: ignoring the emitted light errs on the hot side.
     */
    electricW: quantity(0.5, 200, 'W'),
    turnOnS: quantity(0.001, 0.5, 's'),
    droopPerK: quantity(0, 0.02, '1/K'),
    ratedHeatSinkC: quantity(0, 60, 'C'),
    referenceDistanceMm: quantity(1, 500, 'mm'),
    heatSinkJPerK: quantity(10, 5000, 'J/K'),
    heatSinkWPerK: quantity(0.02, 5, 'W/K'),
    /** Share of the lamp's light that the cover film lets through. */
    filmTransmission: quantity(0.1, 1, ''),
  })
  .transform(({ fullMWPerCm2, ratedHeatSinkC, referenceDistanceMm, ...rest }) => ({
    ...rest,
    fullWPerM2: wPerM2FromMWPerCm2(fullMWPerCm2),
    ratedHeatSinkK: kFromCelsius(ratedHeatSinkC),
    referenceDistanceM: referenceDistanceMm / 1000,
  }));
export type Lamp = z.infer<typeof lampSchema>;

/** Demo lamp. */
export const DEMO_LAMP: Lamp = lampSchema.parse({
  fullMWPerCm2: 20,
  electricW: 12,
  turnOnS: 0.05,
  droopPerK: 0.003,
  ratedHeatSinkC: 25,
  referenceDistanceMm: 20,
  heatSinkJPerK: 60,
  heatSinkWPerK: 0.4,
  filmTransmission: weightedMean(DEMO_LAMP_BAND, DEMO_FILM),
});

export interface LampState {
  /** Drive that reaches the diodes, 0 to 1. */
  outputRatio: number;
  heatSinkK: number;
  /** At the glass at the end of the last step, above any film. */
  irradianceWPerM2: number;
  /** Mean over the last step: times its length it is exactly the dose of that step. */
  meanWPerM2: number;
  /** True dose at the glass so far. */
  doseJPerM2: number;
  /** Heat put into the heat sink so far, and given to the air; the difference is stored. */
  heatInJ: number;
  heatLostJ: number;
}

export interface LampDrive {
  /** 0 to 1; 0 when the lamp is not enabled. */
  readonly driveRatio: number;
  readonly airK: number;
  /** Share of its initial output that an aged lamp still gives. */
  readonly ageRatio: number;
  /** Heat into the heat sink that its fan does not remove, W. */
  readonly heatSinkHeatW: number;
  readonly distanceM: number;
}

export const createLampState = (airK: number): LampState => ({
  outputRatio: 0,
  heatSinkK: airK,
  irradianceWPerM2: 0,
  meanWPerM2: 0,
  doseJPerM2: 0,
  heatInJ: 0,
  heatLostJ: 0,
});

/** A remaining output below this counts as dark: less than a nanowatt per cm2 of light. */
const DARK_RATIO = 1e-8;

/**
 * Irradiance against distance from a source that is small in comparison: the inverse square law.
 */
export function distanceRatio({ referenceDistanceM }: Lamp, distanceM: number): number {
  const ratio = referenceDistanceM / distanceM;
  return ratio * ratio;
}

/** Share of the rated output at this heat sink temperature; none when far too hot. */
export const droopRatio = ({ droopPerK, ratedHeatSinkK }: Lamp, heatSinkK: number): number =>
  Math.max(0, 1 - droopPerK * (heatSinkK - ratedHeatSinkK));

/** Irradiance at the resin, from the light at the glass. */
export const underFilm = ({ filmTransmission }: Lamp, wPerM2: number, covered: boolean): number =>
  covered ? wPerM2 * filmTransmission : wPerM2;

/**
 * Steps the lamp by `dtS` under a constant drive d. With a = 1/turn-on time and b = loss/capacity
 * of the heat sink, both unknowns are sums of exponentials:
 *
 *     output      u(t) = d + U exp(-a t)
 *     heat sink   T(t) = air + R + A exp(-b t) + B exp(-a t)
 *
 * and the dose is the integral of u (1 - droop (T - rated)), term by term.
 */
export function stepLamp(state: LampState, lamp: Lamp, drive: LampDrive, dtS: number): void {
  const { driveRatio, airK, heatSinkHeatW } = drive;
  const { electricW, droopPerK, heatSinkWPerK, heatSinkJPerK } = lamp;
  const a = 1 / lamp.turnOnS;
  const b = heatSinkWPerK / heatSinkJPerK;
  const u = state.outputRatio - driveRatio;
  const risenK = (electricW * driveRatio + heatSinkHeatW) / heatSinkWPerK;
  const fastK = (electricW * u) / (heatSinkWPerK - heatSinkJPerK * a);
  const slowK = state.heatSinkK - airK - risenK - fastK;
  // How far each exponential has decayed at the end, and from it their integrals over the step.
  const overA = -Math.expm1(-a * dtS);
  const overB = -Math.expm1(-b * dtS);
  const intA = overA / a;
  const intB = overB / b;
  const intAA = (overA * (2 - overA)) / (2 * a);
  const intAB = (overA + overB - overA * overB) / (a + b);
  const steady = 1 - droopPerK * (airK + risenK - lamp.ratedHeatSinkK);
  const fullS =
    driveRatio * (steady * dtS - droopPerK * (slowK * intB + fastK * intA)) +
    u * (steady * intA - droopPerK * (slowK * intAB + fastK * intAA));
  const full = lamp.fullWPerM2 * drive.ageRatio * distanceRatio(lamp, drive.distanceM);
  const doseJPerM2 = full * Math.max(0, fullS);

  state.outputRatio = driveRatio + u * (1 - overA);
  if (driveRatio === 0 && state.outputRatio < DARK_RATIO) state.outputRatio = 0;
  state.heatSinkK = airK + risenK + slowK * (1 - overB) + fastK * (1 - overA);
  state.irradianceWPerM2 = full * state.outputRatio * droopRatio(lamp, state.heatSinkK);
  state.meanWPerM2 = doseJPerM2 / dtS;
  state.doseJPerM2 += doseJPerM2;
  state.heatInJ += (electricW * driveRatio + heatSinkHeatW) * dtS + electricW * u * intA;
  state.heatLostJ += heatSinkWPerK * (risenK * dtS + slowK * intB + fastK * intA);
}
