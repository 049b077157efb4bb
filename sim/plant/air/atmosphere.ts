/**
 * Pressure of the US Standard Atmosphere 1976 in its lowest layer, by geopotential height. Weather
 * changes the real one by a few kPa, which is why the controller measures it and never assumes it.
 */

const SEA_LEVEL_PA = 101_325;
const SEA_LEVEL_K = 288.15;
const LAPSE_K_PER_M = 0.0065;
/** g0 M / (R L) with the standard's own constants 9.80665, 28.9644 and 8314.32. */
const EXPONENT = (9.80665 * 28.9644) / (8314.32 * LAPSE_K_PER_M);
const LAYER_TOP_M = 11_000;

/** Pa at a geopotential height of -2000 to 11000 m. */
export function standardAtmospherePa(heightM: number): number {
  if (!(heightM >= -2000 && heightM <= LAYER_TOP_M)) {
    throw new RangeError(`height ${heightM} m; accepted: -2000 to ${LAYER_TOP_M} m`);
  }
  return SEA_LEVEL_PA * (1 - (LAPSE_K_PER_M * heightM) / SEA_LEVEL_K) ** EXPONENT;
}
