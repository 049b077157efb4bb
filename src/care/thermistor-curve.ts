/**
 * The curve of a thermistor and its closed-form inverse, as calibration needs them. The
 * controller's own transfer function is in the signal room; tests keep the two consistent.
 */

/** Steinhart-Hart coefficients, 1/T = a + b ln R + c (ln R)^3, in 1/K. */
export interface ThermistorCurve {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

export const reciprocalK = (logOhm: number, { a, b, c }: ThermistorCurve): number =>
  a + b * logOhm + c * logOhm ** 3;

/** ln of the resistance that reads as `temperatureK`: the only real root of a cubic (Cardano). */
export function logOhmAtK(temperatureK: number, { a, b, c }: ThermistorCurve): number {
  const half = (a - 1 / temperatureK) / (2 * c);
  const third = b / (3 * c);
  const root = Math.sqrt(third ** 3 + half ** 2);
  return Math.cbrt(root - half) - Math.cbrt(root + half);
}
