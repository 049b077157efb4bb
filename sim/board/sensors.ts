/**
 * Physics to counts: transfer function, errors, noise and the 10-bit converter of each channel. It
 * is written independently from the sensors' side, so that it checks the controller's inverse
 * instead of sharing it. The errors of the light are drawn from what the unit file states
 * (`light-errors.ts`); the sizes of all others are demo values, inside data-sheet classes.
 */
import {
  type Channel,
  FULL_SCALE_COUNTS,
  type LadderReading,
  perChannel,
  type ReadingKey,
  type Switches,
  type Trip,
} from '../../src/core/frame.ts';
import type { Chance } from '../random.ts';
import { type LightErrors, NO_LIGHT_ERRORS } from './light-errors.ts';

/** Steinhart-Hart coefficients of a 10 kOhm thermistor (from memory). */
const STEINHART_HART = { a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8 };
const SERIES_OHM = 10_000;
/** Supply of the sensors and reference of the converter. */
const SENSOR_SUPPLY_V = 5;
const PRESSURE_SPAN_PA = 400_000;
const IRRADIANCE_SPAN_W_PER_M2 = 400;
const SUPPLY_SPAN_V = 20;
/** Converter and amplifier together, standard deviation. */
const NOISE_COUNTS = 0.5;
/** Temperature at which the sensor was adjusted, so that its drift is zero there. */
const ADJUSTED_K = 298.15;
const HOUR_S = 3600;

/** Deviations of this unit's own sensors from their data sheets. */
export interface Tolerance extends LightErrors {
  readonly pressureOffsetPa: number;
  /** Slope of the pressure signal, relative. */
  readonly pressureSpanError: number;
  /** Drift of the pressure zero, Pa per hour, and Pa/K from the temperature of adjustment. */
  readonly pressureDriftPaPerHour: number;
  readonly pressureDriftPaPerK: number;
  /** Series resistor of both thermistors, relative. */
  readonly seriesOhmError: number;
  /** Both conductors of the thermistor's cable. */
  readonly thermistorLeadOhm: number;
  /** Heat dissipation of a thermistor; infinite means no self-heating. */
  readonly dissipationWPerK: number;
  /** Ratio of the supply's divider, relative. */
  readonly supplyDividerError: number;
  /** Voltage lost in each of the supply and ground conductors of the transmitters' cable. */
  readonly cableDropV: number;
}

export const PERFECT: Tolerance = {
  ...NO_LIGHT_ERRORS,
  pressureOffsetPa: 0,
  pressureSpanError: 0,
  pressureDriftPaPerHour: 0,
  pressureDriftPaPerK: 0,
  seriesOhmError: 0,
  thermistorLeadOhm: 0,
  dissipationWPerK: Number.POSITIVE_INFINITY,
  supplyDividerError: 0,
  cableDropV: 0,
};

/**
 * Two metres of 0.25 mm2 cable, there and back, about 0.07 Ohm a metre; thermistor glued to glass
 * or metal.
 */
const FITTED = { thermistorLeadOhm: 0.28, dissipationWPerK: 0.008, cableDropV: 5e-3 * 0.14 };

/** In total: pressure within 0.2 % of span from 5 to 45 C. The light's errors are drawn apart. */
export function drawTolerance(chance: Chance, light: LightErrors): Tolerance {
  const within = (limit: number): number => limit * (2 * chance.uniform() - 1);
  return {
    ...light,
    pressureOffsetPa: within(0.0012) * PRESSURE_SPAN_PA,
    pressureSpanError: within(0.0003),
    pressureDriftPaPerHour: within(0.00005) * PRESSURE_SPAN_PA,
    pressureDriftPaPerK: within(0.00001) * PRESSURE_SPAN_PA,
    seriesOhmError: within(0.001),
    supplyDividerError: within(0.005),
    thermistorLeadOhm: FITTED.thermistorLeadOhm,
    dissipationWPerK: FITTED.dissipationWPerK,
    cableDropV: FITTED.cableDropV,
  };
}

/** Conditions at each sensor, and what else its errors depend on. */
export interface Physical extends Readonly<Record<ReadingKey, number>> {
  /** Of the pressure transmitter; where it was adjusted, if not said. */
  readonly sensorK?: number;
  /** Time since the sensors were last zeroed; 0 by default. */
  readonly sinceZeroS?: number;
}

/** Everything sampled at one moment; null where nothing has been measured yet. */
export interface Sample {
  readonly atS: number;
  readonly counts: Readonly<Record<Channel, number | null>>;
  readonly switches: Switches;
  readonly ladder: LadderReading | null;
  readonly trips: readonly Trip[];
}

type SensorRatio = (truth: Physical, errors: Tolerance) => number;

/** Ratio to full scale that each sound sensor puts out, before noise. */
const SENSORS: Readonly<Record<Channel, SensorRatio>> = {
  pressure: (truth, errors) =>
    liveZeroRatio(readPressurePa(truth, errors) / PRESSURE_SPAN_PA, errors.cableDropV),
  irradiance: (truth, errors) =>
    liveZeroRatio(readWPerM2(truth, errors) / IRRADIANCE_SPAN_W_PER_M2, errors.cableDropV),
  glassTemperature: ({ glassK }, errors) => dividerRatio(glassK, errors),
  heatSinkTemperature: ({ heatSinkK }, errors) => dividerRatio(heatSinkK, errors),
  supplyVoltage: ({ supplyV }, errors) =>
    (supplyV / SUPPLY_SPAN_V) * (1 + errors.supplyDividerError),
};

export const sensorRatios = (truth: Physical, errors: Tolerance): Record<Channel, number> =>
  perChannel((channel) => SENSORS[channel](truth, errors));

/** The irradiance that the radiometer takes the truth for. */
function readWPerM2({ irradianceWPerM2 }: Physical, errors: Tolerance): number {
  const share = Math.min(1, irradianceWPerM2 / IRRADIANCE_SPAN_W_PER_M2);
  return (
    irradianceWPerM2 *
      errors.irradianceGain *
      errors.irradianceSeat *
      errors.irradianceSpectralRatio +
    errors.irradianceDarkWPerM2 +
    4 * share * (1 - share) * errors.irradianceBowWPerM2
  );
}

/** The pressure that the transmitter reports for the true one. */
function readPressurePa(
  { pressurePa, sensorK = ADJUSTED_K, sinceZeroS = 0 }: Physical,
  errors: Tolerance,
): number {
  return (
    pressurePa * (1 + errors.pressureSpanError) +
    errors.pressureOffsetPa +
    errors.pressureDriftPaPerK * (sensorK - ADJUSTED_K) +
    errors.pressureDriftPaPerHour * (sinceZeroS / HOUR_S)
  );
}

/**
 * Ratiometric transmitter, 0.1 to 0.9 of its own supply. Its current raises its ground and lowers
 * its supply by the drop in the conductors, and the board measures against the board's ground.
 */
function liveZeroRatio(share: number, cableDropV: number): number {
  const drop = cableDropV / SENSOR_SUPPLY_V;
  return drop + (0.1 + 0.8 * share) * (1 - 2 * drop);
}

export function sampleCounts(
  truth: Physical,
  tolerance: Tolerance,
  noise: Chance,
): Record<Channel, number> {
  return perChannel((channel) => {
    const exact =
      SENSORS[channel](truth, tolerance) * FULL_SCALE_COUNTS + NOISE_COUNTS * noise.gaussian();
    return Math.min(FULL_SCALE_COUNTS, Math.max(0, Math.round(exact)));
  });
}

/** The thermistor and its cable on the low side of a divider. */
function dividerRatio(temperatureK: number, errors: Tolerance): number {
  const seriesOhm = SERIES_OHM * (1 + errors.seriesOhmError);
  const fixedOhm = seriesOhm + errors.thermistorLeadOhm;
  const ownK = selfHeatedK(temperatureK, fixedOhm, errors.dissipationWPerK);
  const ohm = thermistorOhm(ownK) + errors.thermistorLeadOhm;
  return ohm / (ohm + seriesOhm);
}

/**
 * Temperature of a thermistor that its own current warms: T = T0 + I^2 R(T) / dissipation. Two
 * iterations suffice: each leaves less than a hundredth of the previous error.
 */
function selfHeatedK(temperatureK: number, fixedOhm: number, dissipationWPerK: number): number {
  let ownK = temperatureK;
  for (let round = 0; round < 2; round++) {
    const ohm = thermistorOhm(ownK);
    const currentA = SENSOR_SUPPLY_V / (ohm + fixedOhm);
    ownK = temperatureK + (currentA * currentA * ohm) / dissipationWPerK;
  }
  return ownK;
}

/** Resistance at a temperature: the Steinhart-Hart cubic solved for ln R by Cardano's formula. */
export function thermistorOhm(temperatureK: number): number {
  const { a, b, c } = STEINHART_HART;
  const p = b / c;
  const q = (a - 1 / temperatureK) / c;
  const root = Math.sqrt((q / 2) ** 2 + (p / 3) ** 3);
  return Math.exp(Math.cbrt(-q / 2 + root) + Math.cbrt(-q / 2 - root));
}
