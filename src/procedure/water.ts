/**
 * Pressure at which water boils off: what a wet break fills a closed chamber with. What follows from
 * it is decided by the seal check.
 */
import { celsiusFromK } from '../units.ts';

/**
 * Saturation pressure over liquid water, Pa, at 253 to 323 K. Magnus form with the coefficients of
 * Alduchov and Eskridge, J. Appl. Meteorol. 35 (1996) 601-609, who state at most 0.4 % of error from
 * -40 to 50 C (from memory).
 */
export function waterSaturationPa(temperatureK: number): number {
  const celsius = celsiusFromK(temperatureK);
  return 610.94 * Math.exp((17.625 * celsius) / (243.04 + celsius));
}
