/**
 * The effect of heat on a damaged pane, as tension and as stress intensity at the tip of its
 * longest leg. The closed forms rank cases and prove nothing: a real leg is bonded to the
 * interlayer and finite, which lowers K, while bending and edge stress add to it. They therefore
 * only tighten the unit's own limits. The alarm table decides on action.
 */

/** Soda-lime float glass as EN 572-1 has it (quoted by a secondary page). */
const YOUNG_PA = 70e9;
const EXPANSION_PER_K = 9e-6;
const POISSON_RATIO = 0.2;
const CONDUCTIVITY_W_PER_M_K = 1;
const HEAT_CAPACITY_J_PER_M3_K = 2500 * 720;
/**
 * Cracks in soda-lime glass grow slowly in moist air from this value, and at once at the toughness;
 * from memory.
 */
export const SLOW_GROWTH_PA_SQRT_M = 0.25e6;
export const TOUGHNESS_PA_SQRT_M = 0.75e6;
/** A straight crack from a free edge under tension (Tada, Paris and Irwin, from memory): an upper bound here. */
const EDGE_CRACK_FACTOR = 1.12;
/** One thermistor and a calculated pane cannot resolve a difference below this, K. */
const LEAST_TOLD_K = 2;

/** Hoop tension just outside a spot that is warmer than the pane around it, Pa: E alpha dT / 2. */
export const hotSpotTensionPa = (spotOverPaneK: number): number =>
  (YOUNG_PA * EXPANSION_PER_K * Math.max(0, spotOverPaneK)) / 2;

/** Temperature from face to back of a ply heated through one face at a steady rate, K: q L / 2k. */
export function throughPlyK(rateKPerS: number, plyM: number): number {
  const fluxWPerM2 = HEAT_CAPACITY_J_PER_M3_K * plyM * rateKPerS;
  return (fluxWPerM2 * plyM) / (2 * CONDUCTIVITY_W_PER_M_K);
}

/**
 * Tension in a ply held flat that warms or cools through one face, Pa. The profile is a parabola, so
 * its mean lies a third of the way from back to face: warming puts the back in tension with one
 * third of E alpha dT / (1 - nu), cooling the face, where the damage is, with two thirds.
 */
export function rateTensionPa(rateKPerS: number, plyM: number): number {
  const shareInTension = rateKPerS >= 0 ? 1 / 3 : 2 / 3;
  const acrossK = Math.abs(throughPlyK(rateKPerS, plyM));
  return (shareInTension * YOUNG_PA * EXPANSION_PER_K * acrossK) / (1 - POISSON_RATIO);
}

/**
 * Stress intensity at the tip of a leg under tension across it, Pa sqrt(m); pressure in the leg
 * acts alike.
 */
export const stressIntensityPaSqrtM = (tensionPa: number, legM: number): number =>
  EDGE_CRACK_FACTOR * tensionPa * Math.sqrt(Math.PI * legM);

export interface HeatingLimits {
  readonly spotOverPaneK: number;
  readonly rateKPerS: number;
}

export interface Leg {
  readonly legM: number;
  /** Share of the upper bound on K that is attributed to a real leg, above 0 to 1. */
  readonly legShare: number;
  readonly plyM: number;
}

/**
 * Difference and rate at which the leg would reach the slow-growth threshold; neither exceeds
 * `own`.
 */
export function allowedHeating(own: HeatingLimits, { legM, legShare, plyM }: Leg): HeatingLimits {
  const tensionPa = SLOW_GROWTH_PA_SQRT_M / (legShare * stressIntensityPaSqrtM(1, legM));
  const spotK = tensionPa / hotSpotTensionPa(1);
  // Cooling is the worse direction, and the rate is judged in both.
  const rateKPerS = tensionPa / rateTensionPa(-1, plyM);
  return {
    spotOverPaneK: Math.min(own.spotOverPaneK, Math.max(LEAST_TOLD_K, spotK)),
    rateKPerS: Math.min(own.rateKPerS, rateKPerS),
  };
}
