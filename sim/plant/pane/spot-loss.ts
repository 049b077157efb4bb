/**
 * The sideways heat loss of a worked spot into the surrounding pane. The pane is treated as an
 * infinite thin fin: outside a disc of radius r held dT above it, heat leaves both faces with
 * coefficient h, and the steady solution falls off as the Bessel function K0(m R), m = sqrt(h /
 * sum(k d)). The flow through the rim of the disc is 2 pi r k d m K1(m r)/K0(m r) dT (fin theory of
 * the handbooks). It is stated per square metre of spot and per layer's own k. This is the steady
 * loss: while the surrounding pane is still cold near the rim, the true loss is greater.
 */

const STEP = 1 / 16;
const LAST = 12;

/**
 * Modified Bessel function of the second kind, order 0 or 1, x from 1e-4 to 100: the integral of
 * exp(-x cosh t) cosh(order t) from 0 up (Abramowitz and Stegun 9.6.24) by the trapezoid rule,
 * which is exact to rounding for such an integrand as long as it is wider than the step.
 */
export function besselK(order: 0 | 1, x: number): number {
  let sum = 0.5 * Math.exp(-x);
  for (let t = STEP; t < LAST; t += STEP) {
    sum += Math.exp(-x * Math.cosh(t)) * (order === 0 ? 1 : Math.cosh(t));
  }
  return STEP * sum;
}

/**
 * Loss of a square metre of spot per metre of thickness and kelvin, divided by the layer's
 * conductivity: W/(m3 K) over W/(m K), so 1/m2.
 */
export function spotLossPerM2(
  spotRadiusM: number,
  facesWPerM2K: number,
  paneSheetWPerK: number,
): number {
  if (spotRadiusM === Number.POSITIVE_INFINITY) return 0;
  const finPerM = Math.sqrt(facesWPerM2K / paneSheetWPerK);
  const x = finPerM * spotRadiusM;
  return ((2 * finPerM) / spotRadiusM) * (besselK(1, x) / besselK(0, x));
}
