/**
 * Physics to counts: transfer function, tolerance, noise and the 10-bit converter of each channel.
 * Written from the sensors' side and on its own, so that the controller's inverse is checked by it
 * and not shared with it.
 */
import { type Channel, FULL_SCALE_COUNTS, type Switches, type Trip } from '../src/frame.ts';
import type { Chance } from './random.ts';

/** Steinhart-Hart coefficients of a 10 kOhm thermistor (from memory). */
const STEINHART_HART = { a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8 };
const SERIES_OHM = 10_000;
const PRESSURE_SPAN_PA = 400_000;
const IRRADIANCE_SPAN_W_PER_M2 = 400;
const SUPPLY_SPAN_V = 20;
/** Converter and amplifier together, standard deviation. */
const NOISE_COUNTS = 0.5;

/** How far this unit's own sensors are from their data sheet. */
export interface Tolerance {
  readonly pressureOffsetPa: number;
  readonly irradianceGain: number;
}

export function drawTolerance(chance: Chance): Tolerance {
  const within = (limit: number): number => limit * (2 * chance.uniform() - 1);
  return {
    pressureOffsetPa: within(0.002) * PRESSURE_SPAN_PA,
    irradianceGain: 1 + within(0.015),
  };
}

export interface Physical {
  readonly pressurePa: number;
  readonly irradianceWPerM2: number;
  readonly glassK: number;
  readonly heatSinkK: number;
  readonly supplyV: number;
}

/** Everything sampled at one moment; null where nothing was ever measured. */
export interface Sample {
  readonly atS: number;
  readonly counts: Readonly<Record<Channel, number | null>>;
  readonly switches: Switches;
  readonly trips: readonly Trip[];
}

/** Ratio to full scale that a sound sensor puts out, before noise. */
export function sensorRatios(truth: Physical, tolerance: Tolerance): Record<Channel, number> {
  const pressure = (truth.pressurePa + tolerance.pressureOffsetPa) / PRESSURE_SPAN_PA;
  const light = (truth.irradianceWPerM2 * tolerance.irradianceGain) / IRRADIANCE_SPAN_W_PER_M2;
  return {
    pressure: 0.1 + 0.8 * pressure,
    irradiance: 0.1 + 0.8 * light,
    glassTemperature: dividerRatio(truth.glassK),
    heatSinkTemperature: dividerRatio(truth.heatSinkK),
    supplyVoltage: truth.supplyV / SUPPLY_SPAN_V,
  };
}

export function sampleCounts(
  truth: Physical,
  tolerance: Tolerance,
  noise: Chance,
): Record<Channel, number> {
  const ratios = sensorRatios(truth, tolerance);
  const sample = (channel: Channel): number => {
    const exact = ratios[channel] * FULL_SCALE_COUNTS + NOISE_COUNTS * noise.gaussian();
    return Math.min(FULL_SCALE_COUNTS, Math.max(0, Math.round(exact)));
  };
  return {
    pressure: sample('pressure'),
    irradiance: sample('irradiance'),
    glassTemperature: sample('glassTemperature'),
    heatSinkTemperature: sample('heatSinkTemperature'),
    supplyVoltage: sample('supplyVoltage'),
  };
}

/** The thermistor on the low side of a divider. */
function dividerRatio(temperatureK: number): number {
  const ohm = thermistorOhm(temperatureK);
  return ohm / (ohm + SERIES_OHM);
}

/** Resistance at a temperature: the Steinhart-Hart cubic solved for ln R by Cardano's formula. */
export function thermistorOhm(temperatureK: number): number {
  const { a, b, c } = STEINHART_HART;
  const p = b / c;
  const q = (a - 1 / temperatureK) / c;
  const root = Math.sqrt((q / 2) ** 2 + (p / 3) ** 3);
  return Math.exp(Math.cbrt(-q / 2 + root) + Math.cbrt(-q / 2 - root));
}
