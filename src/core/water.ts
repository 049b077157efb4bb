/**
 * Water in air: the saturation pressure, which the vapour from a wet break reaches in a closed
 * chamber, and the dew point. The seal check and the advice decide what follows.
 */
import { celsiusFromK, kFromCelsius } from './units.ts';

/**
 * Saturation pressure over liquid water, Pa, at 253 to 323 K. Magnus form with the coefficients of
 * Alduchov and Eskridge, J. Appl. Meteorol. 35 (1996) 601-609, who state at most 0.4 % of error from
 * -40 to 50 C (from memory).
 */
export function waterSaturationPa(temperatureK: number): number {
  const celsius = celsiusFromK(temperatureK);
  return 610.94 * Math.exp((17.625 * celsius) / (243.04 + celsius));
}

/** Dew point of air with this humidity, K; the inverse of the form above. */
export function dewPointK(airK: number, humidityRatio: number): number {
  const log = Math.log(humidityRatio * (waterSaturationPa(airK) / 610.94));
  return kFromCelsius((243.04 * log) / (17.625 - log));
}
