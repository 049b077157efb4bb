/**
 * Gas flow through a restriction by ISO 6358-1, as amount of substance: choked up to the critical
 * pressure ratio, a quarter ellipse above it, and a straight line where the pressures are nearly
 * equal, because the ellipse is infinitely steep there. The unit's restrictions are defined
 * elsewhere.
 */
import { z } from 'zod';
import { quantity } from '../../../src/core/settings.ts';

/** Dry air, kg/mol (US Standard Atmosphere 1976, from memory). */
export const MOLAR_MASS_KG_PER_MOL = 0.0289644;
/** Reference state of ISO 6358: 20 C, 100 kPa, 65 % relative humidity (from memory). */
export const REFERENCE_KG_PER_M3 = 1.185;
export const REFERENCE_K = 293.15;
/**
 * Above this pressure ratio the flow is treated as laminar. ISO 6358-1 does not cover it; the
 * manuals of two simulation libraries give 0.999, one of them a range from 0.995 to 0.999.
 */
export const LAMINAR_RATIO = 0.999;

/** Sonic conductance in m3/(s Pa) and critical pressure ratio (0 to 0.6). */
export interface Restriction {
  readonly sonicConductance: number;
  readonly criticalRatio: number;
}

/** 1 dm3/(s bar), the unit of data sheets, in m3/(s Pa). */
const SI_PER_DM3_PER_S_BAR = 1e-8;

/** A restriction as a data sheet gives it. */
export const restrictionSchema = z
  .strictObject({
    conductanceDm3PerSBar: quantity(1e-7, 2, 'dm3/(s bar)'),
    criticalRatio: quantity(0, 0.6, ''),
  })
  .transform(
    ({ conductanceDm3PerSBar, criticalRatio }): Restriction => ({
      sonicConductance: conductanceDm3PerSBar * SI_PER_DM3_PER_S_BAR,
      criticalRatio,
    }),
  );

/** Amount in a cubic metre of sonic conductance times pressure, mol/m3, for gas at `upstreamK`. */
export const sonicMolPerM3 = (upstreamK: number): number =>
  (REFERENCE_KG_PER_M3 / MOLAR_MASS_KG_PER_MOL) * Math.sqrt(REFERENCE_K / upstreamK);

/** Gas on one side of a restriction. */
export interface GasSide {
  /** Absolute. */
  readonly pressurePa: number;
  /** `sonicMolPerM3` at its temperature. */
  readonly sonicMolPerM3: number;
}

/**
 * Flow divided by pressure difference, mol/(s Pa): finite and positive, even between equal
 * pressures. The gas on the side of the higher pressure counts. Flow is concave in the difference,
 * so that no tangent is steeper than this chord.
 */
export function chordMolPerSPa(
  { sonicConductance, criticalRatio }: Restriction,
  a: GasSide,
  b: GasSide,
): number {
  const forward = a.pressurePa > b.pressurePa;
  const highPa = forward ? a.pressurePa : b.pressurePa;
  const lowPa = forward ? b.pressurePa : a.pressurePa;
  const sonic = sonicConductance * (forward ? a : b).sonicMolPerM3;
  const apartPa = highPa - lowPa;
  if (lowPa <= criticalRatio * highPa) {
    return apartPa > 0 ? (sonic * highPa) / apartPa : sonic / (1 - LAMINAR_RATIO);
  }
  // The ellipse, sqrt(1 - ((r - b)/(1 - b))^2) with r = low/high, over 1 - r.
  const bend = 1 - criticalRatio;
  const over =
    lowPa >= LAMINAR_RATIO * highPa
      ? (1 + LAMINAR_RATIO - 2 * criticalRatio) / ((1 - LAMINAR_RATIO) * bend * bend)
      : (highPa + lowPa - 2 * criticalRatio * highPa) / (apartPa * bend * bend);
  return sonic * Math.sqrt(over);
}

/** A path for gas from one side to another, and the present flow through it. */
export interface Passage {
  /** From `a` to `b`; negative in reverse. */
  molPerS: number;
  /** How much the flow falls with the pressure at `b`, mol/(s Pa); never negative. */
  slopeMolPerSPa: number;
}

/**
 * Sets the flow through a restriction, with the chord as its slope. Arguments and results are
 * objects, because numbers passed to or from a function that is not inlined are heap-allocated.
 */
export function setPassage(passage: Passage, by: Restriction, a: GasSide, b: GasSide): void {
  const chord = chordMolPerSPa(by, a, b);
  passage.slopeMolPerSPa = chord;
  passage.molPerS = chord * (a.pressurePa - b.pressurePa);
}

export function shutPassage(passage: Passage): void {
  passage.slopeMolPerSPa = 0;
  passage.molPerS = 0;
}

/** mol/s from `upstreamPa` to `downstreamPa` (absolute) at one temperature; negative in reverse. */
export function flowMolPerS(
  restriction: Restriction,
  upstreamPa: number,
  downstreamPa: number,
  gasK: number,
): number {
  const density = sonicMolPerM3(gasK);
  const chord = chordMolPerSPa(
    restriction,
    { pressurePa: upstreamPa, sonicMolPerM3: density },
    { pressurePa: downstreamPa, sonicMolPerM3: density },
  );
  return chord * (upstreamPa - downstreamPa);
}
