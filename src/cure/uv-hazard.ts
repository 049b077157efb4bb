/**
 * How long unprotected eyes may be exposed to the lamp's light, and how strongly a wavelength acts
 * on eyes and skin. Two UV limits of IEC 62471:2006: 4.3.2 (near UV, eye) and the actinic weighting
 * of 4.3.1 (both as quoted by open-source copies; the standard itself was not read). Shielding and
 * warnings are left to the switches and the panel.
 */

/** Near-UV radiant exposure of the eye in a day of 8 h. */
const EYE_J_PER_M2 = 10_000;
const DAY_S = 8 * 3600;

/**
 * Longest exposure of the unprotected eye to a UV-A irradiance (315 to 400 nm), s, and without
 * limit only where 8 h do not reach 10 000 J/m2. IEC 62471 lifts that dose at 10 W/m2 and below;
 * ICNIRP 2004 and Directive 2006/25/EC do not, and the dose of 8 h is never the laxer of the two.
 */
export function permissibleEyeTimeS(irradianceWPerM2: number): number {
  const timeS = EYE_J_PER_M2 / irradianceWPerM2;
  return timeS > DAY_S ? Number.POSITIVE_INFINITY : timeS;
}

/** Actinic radiant exposure of eye and skin in a day of 8 h (4.3.1; Directive 2006/25/EC, annex I a). */
const ACTINIC_J_PER_M2 = 30;

/**
 * Longest exposure of unprotected skin, in a day, to light of one wavelength, s. A lamp's band of
 * 10 nm around its peak weighs a few per cent more than the peak alone.
 */
export const permissibleSkinTimeS = (irradianceWPerM2: number, peakNm: number): number =>
  ACTINIC_J_PER_M2 / (irradianceWPerM2 * actinicWeight(peakNm));

/**
 * Relative effect S of a wavelength on eye and skin, 210 to 400 nm; 0 outside. ICNIRP, Health
 * Physics 87 (2004) 171-186, equations 2a to 2c (as quoted by a secondary source). They differ from
 * the table of the same paper by up to 27 % at 313 to 320 nm and by less than 5 % from 335 nm.
 * Between 321 and 334 nm they lie above it, by some 30 to 49 % at 322 to 325 nm, 15 % at 328 and
 * 9 % at 330 (table from memory): the safe side. Light above 400 nm, which a lamp from 385 nm on has
 * as well, counts for nothing here; its hazard to the retina (blue light) is not treated.
 */
export function actinicWeight(nm: number): number {
  if (nm < 210 || nm > 400) return 0;
  if (nm <= 270) return 0.959 ** (270 - nm);
  if (nm <= 300) return 1 - 0.36 * ((nm - 270) / 20) ** 1.64;
  return 0.3 * 0.736 ** (nm - 300) + 10 ** (2 - 0.0163 * nm);
}
