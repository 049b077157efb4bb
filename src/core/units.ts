/**
 * Conversions between SI, used everywhere inside, and the trade's units, used only at the edges:
 * profile files, panel, console, reports. Factors are exact by definition or carry the digits of
 * NIST SP 811:2008, appendix B. Which unit is shown where is decided elsewhere.
 */

/** Standard acceleration of free fall, m/s², exact. */
const STANDARD_GRAVITY_M_PER_S2 = 9.80665;
/** International avoirdupois pound, kg, exact. */
const POUND_KG = 0.45359237;
/** International inch, m, exact. */
const INCH_M = 0.0254;

export const PA_PER_KPA = 1000;
/** 4.4482216152605 N on a square inch; NIST SP 811 prints 6.894757 E+03. */
export const PA_PER_PSI = (POUND_KG * STANDARD_GRAVITY_M_PER_S2) / INCH_M ** 2;
/** Conventional inch of mercury, 13.5951 g/cm³ times an inch; NIST SP 811 prints 3.386389 E+03. */
export const PA_PER_INHG = 13_595.1 * STANDARD_GRAVITY_M_PER_S2 * INCH_M;
/** 1 mW/cm² is 10 W/m², and 1 mJ/cm² is 10 J/m², exactly. */
export const W_PER_M2_PER_MW_PER_CM2 = 10;
export const J_PER_M2_PER_MJ_PER_CM2 = 10;
export const ZERO_CELSIUS_K = 273.15;

export const kPaFromPa = (pa: number): number => pa / PA_PER_KPA;
export const paFromKPa = (kPa: number): number => kPa * PA_PER_KPA;
export const inHgFromPa = (pa: number): number => pa / PA_PER_INHG;
export const psiFromPa = (pa: number): number => pa / PA_PER_PSI;
export const celsiusFromK = (k: number): number => k - ZERO_CELSIUS_K;
export const kFromCelsius = (celsius: number): number => celsius + ZERO_CELSIUS_K;
export const mWPerCm2FromWPerM2 = (wPerM2: number): number => wPerM2 / W_PER_M2_PER_MW_PER_CM2;
export const wPerM2FromMWPerCm2 = (mWPerCm2: number): number => mWPerCm2 * W_PER_M2_PER_MW_PER_CM2;
export const mJPerCm2FromJPerM2 = (jPerM2: number): number => jPerM2 / J_PER_M2_PER_MJ_PER_CM2;
export const jPerM2FromMJPerCm2 = (mJPerCm2: number): number => mJPerCm2 * J_PER_M2_PER_MJ_PER_CM2;
