/**
 * The leak past the ring under the injector's foot: the roughness of a compressed ring, and the gap
 * where the pane curves away from it. `foot.ts` finds the force.
 */
import { z } from 'zod';
import { quantity } from '../../../src/core/settings.ts';
import { REFERENCE_K, type Restriction, sonicMolPerM3 } from './flow.ts';
import { GAS_CONSTANT_J_PER_MOL_K } from './gas-constant.ts';

export interface SealRing {
  /** To the middle of the contact. */
  readonly radiusM: number;
  readonly contactWidthM: number;
  /** For the ring as a whole, N/m. */
  readonly stiffnessNPerM: number;
  /** Sonic conductance of a ring that only just touches all round, m3/(s Pa). */
  readonly touchingConductance: number;
  /** Contact pressure that reduces it to exp(-3), a twentieth; the sealing factor of a gasket. */
  readonly sealingPa: number;
}

export const sealRingSchema = z
  .strictObject({
    radiusMm: quantity(2, 50, 'mm'),
    contactWidthMm: quantity(0.2, 10, 'mm'),
    stiffnessNPerMm: quantity(1, 10_000, 'N/mm'),
    touchingConductanceDm3PerSBar: quantity(1e-7, 0.1, 'dm3/(s bar)'),
    sealingKPa: quantity(10, 100_000, 'kPa'),
  })
  .transform(
    ({ radiusMm, contactWidthMm, stiffnessNPerMm, ...leak }): SealRing => ({
      radiusM: radiusMm / 1000,
      contactWidthM: contactWidthMm / 1000,
      stiffnessNPerM: stiffnessNPerMm * 1000,
      touchingConductance: leak.touchingConductanceDm3PerSBar * 1e-8,
      sealingPa: leak.sealingKPa * 1000,
    }),
  );

/** Invented: a soft ring, 20 mm across. */
export const DEMO_SEAL_RING: SealRing = sealRingSchema.parse({
  radiusMm: 10,
  contactWidthMm: 1.5,
  stiffnessNPerMm: 200,
  touchingConductanceDm3PerSBar: 3.75e-5,
  sealingKPa: 1780,
});

/** Grit under the ring; demo. */
export const GRIT_CONDUCTANCE = 1.95e-12;
export const SEAL_CRITICAL_RATIO = 0.3;

/** How far a pane of that radius of curvature falls away under a ring, m. */
export function sagittaM(ringRadiusM: number, curvatureRadiusM: number): number {
  const across = ringRadiusM / curvatureRadiusM;
  // R - sqrt(R2 - r2), without subtracting nearly equal numbers.
  return (ringRadiusM * across) / (1 + Math.sqrt(1 - across * across));
}

/**
 * Remaining gap where the pane falls away farthest, m: what the ring's compliance does not take up.
 */
export const gapM = (
  { radiusM, stiffnessNPerM }: SealRing,
  forceN: number,
  curvatureRadiusM: number,
): number => Math.max(0, sagittaM(radiusM, curvatureRadiusM) - forceN / stiffnessNPerM);

/**
 * Leak of a pressed gasket: a sonic conductance that falls as exp(-3 P/R) with the contact pressure P
 * and the gasket's sealing factor R (form of vacuum-technology textbooks, from memory).
 */
export function contactConductance(
  { radiusM, contactWidthM, touchingConductance, sealingPa }: SealRing,
  forceN: number,
): number {
  const contactPa = forceN / (2 * Math.PI * radiusM * contactWidthM);
  return touchingConductance * Math.exp((-3 * contactPa) / sealingPa);
}

/** Air at 20 C, Pa s (from memory). */
const AIR_VISCOSITY_PA_S = 1.81e-5;
/** Sonic conductance of an ideal nozzle over its area, m/(s Pa); air at 20 C, from gas dynamics. */
const NOZZLE_PER_M2 = 1.99e-3;
const STANDARD_PA = 101_325;

/**
 * Sonic conductance of a slit of height `gap` under half of the ring, as the pane is curved one way
 * and falls away on two sides. In a fine slit viscosity dominates, w h3 (p1^2 - p2^2)/(24 mu L R T)
 * mol/s, taken from one atmosphere into vacuum; in a wide one the narrowest area. Both are in
 * series.
 */
export function gapConductance(ring: SealRing, gap: number): number {
  if (gap === 0) return 0;
  const { viscous, nozzle } = slitConductances(ring, gap);
  return (viscous * nozzle) / (viscous + nozzle);
}

function slitConductances({ radiusM, contactWidthM }: SealRing, gap: number) {
  const widthM = Math.PI * radiusM;
  const molPerS =
    (widthM * gap * gap * gap * STANDARD_PA * STANDARD_PA) /
    (24 * AIR_VISCOSITY_PA_S * contactWidthM * GAS_CONSTANT_J_PER_MOL_K * REFERENCE_K);
  const viscous = molPerS / (STANDARD_PA * sonicMolPerM3(REFERENCE_K));
  return { viscous, nozzle: NOZZLE_PER_M2 * widthM * gap };
}

/** How that grows with the height, m3/(s Pa) per metre. */
export function gapConductancePerM(ring: SealRing, gap: number): number {
  const { viscous, nozzle } = slitConductances(ring, gap);
  const sum = viscous + nozzle;
  // The viscous part grows with the cube of the height, the nozzle with the height.
  return (viscous * nozzle * (3 * nozzle + viscous)) / (gap * sum * sum);
}

/** A foot off the glass; demo. */
export const NO_SEAL: Restriction = { sonicConductance: 1e-8, criticalRatio: SEAL_CRITICAL_RATIO };
