/**
 * Movement of a resin front in one gap: plane Poiseuille flow under injector pressure and capillary
 * pressure against the gas ahead. It advances the square of the front's position, which grows
 * evenly even at the mouth where the speed has no limit, by the exponential Rosenbrock-Euler
 * method: second order, one evaluation of the forces per step, and stable against the last gas,
 * which is as stiff as a spring.
 */

import { GAS_CONSTANT_J_PER_MOL_K } from '../air/gas-constant.ts';
import { apertureM, FIRST_RATIO, type Gap, wideningPerM, widthM } from './gap-shapes.ts';
import type { GapState } from './trapped-gas.ts';

/** Remaining share of a gap that counts as completely filled. */
const LAST_RATIO = 1e-5;
/** A step takes no more than this share of the room ahead: the spring is not linear beyond. */
const LONGEST_STEP_RATIO = 0.9;
/** From the mouth, a step that adds more than this share to the square is a long one. */
const FAR_RATIO = 0.05;

export interface FrontForces {
  /** Pressure on the resin at the mouth, Pa absolute. */
  readonly injectorPa: number;
  readonly viscosityPaS: number;
  readonly gasK: number;
  /** Surface tension times the cosine of the contact angle, N/m. */
  readonly adhesionNPerM: number;
}

/** Young and Laplace between parallel plates. */
export const capillaryPa = (aperture: number, adhesionNPerM: number): number =>
  (2 * adhesionNPerM) / aperture;

/** Position of the front after `dtS`, with the gas ahead of it conserved. */
export function movedFrontM(
  gap: Gap,
  state: GapState,
  { injectorPa, viscosityPaS, adhesionNPerM, gasK }: FrontForces,
  dtS: number,
): number {
  const firstM = FIRST_RATIO * gap.lengthM;
  const xM = Math.max(state.frontM, firstM);
  const aperture = apertureM(gap, xM);
  const perAperture = 1 / aperture;
  const areaM2 = widthM(gap, xM) * aperture;
  const perAhead = 1 / (gap.volumeM3 - state.resinM3);
  const gasPa = state.trappedMol * GAS_CONSTANT_J_PER_MOL_K * gasK * perAhead;
  const capillary = capillaryPa(aperture, adhesionNPerM);
  const drivingPa = injectorPa + capillary - gasPa;
  const openness = 1 / (areaM2 * Math.max(state.resistancePerM3, gap.firstPerM3));
  const mobility = openness / viscosityPaS;
  const drivingPerM =
    capillary * gap.taperPerM * gap.mouthApertureM * perAperture - gasPa * areaM2 * perAhead;
  const slowingPerM = wideningPerM(gap, xM) + 12 * openness * perAperture * perAperture;
  // How the growth of the square changes with the square.
  const slopePerS = mobility * (drivingPerM + drivingPa * (1 / xM - slowingPerM));
  const gainM2 = 2 * xM * drivingPa * mobility * dtS;
  let squareM2 = xM * xM + gainM2 * relaxed(slopePerS * dtS);
  if (gainM2 > FAR_RATIO * xM * xM) {
    // Near the mouth forces change with the position, not with its square: take the secant's slope.
    const secantPerS = (slopePerS * 2 * xM) / (xM + Math.sqrt(Math.max(0, squareM2)));
    squareM2 = xM * xM + gainM2 * relaxed(secantPerS * dtS);
  }
  if (squareM2 <= firstM * firstM) return firstM;
  const farthestM = xM + LONGEST_STEP_RATIO * (gap.lengthM - xM);
  return Math.min(Math.sqrt(squareM2), farthestM, (1 - LAST_RATIO) * gap.lengthM);
}

/** (exp z - 1) / z; limited for a step so long that forces would grow e-fold in it. */
function relaxed(z: number): number {
  if (z > 1) return Math.E - 1;
  if (z > -0.02 && z < 0.02) return 1 + z * (0.5 + z * (1 / 6 + z / 24));
  return (Math.exp(z) - 1) / z;
}
