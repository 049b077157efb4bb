/**
 * Light as a band: a few wavelengths with weights. It gives means of a transmission or a
 * responsivity over a band, and the error of a radiometer for light unlike that of its calibration
 * lamp. All curves of the demo parts are invented. The effect of the light is left to lamp, resin
 * and sensor.
 */

/** Wavelengths in nm and the share of the power at each; the weights add up to one. */
export interface Band {
  readonly nm: readonly number[];
  readonly weights: readonly number[];
}

/**
 * A property against wavelength, as points in rising order; linear in between, constant outside.
 */
export type Curve = readonly (readonly [nm: number, value: number])[];

/** Points of a Gaussian band on each side of its peak. */
const SIDE_POINTS = 22;
/** A Gaussian holds all but 2e-7 of its power within 2.2 full widths at half maximum of the peak. */
const REACH_WIDTHS = 2.2;

/** Gaussian of a peak wavelength and a full width at half maximum, nm. */
export function gaussianBand(peakNm: number, widthNm: number): Band {
  const nm: number[] = [];
  const heights: number[] = [];
  let sum = 0;
  for (let i = -SIDE_POINTS; i <= SIDE_POINTS; i++) {
    const fromPeakWidths = (REACH_WIDTHS * i) / SIDE_POINTS;
    const height = Math.exp(-4 * Math.LN2 * fromPeakWidths * fromPeakWidths);
    nm.push(peakNm + fromPeakWidths * widthNm);
    heights.push(height);
    sum += height;
  }
  return { nm, weights: heights.map((height) => height / sum) };
}

/** A single line, such as a laser's, or for closed forms. */
export const lineBand = (nm: number): Band => ({ nm: [nm], weights: [1] });

/** The curve's value at a wavelength. */
export function curveAt(curve: Curve, nm: number): number {
  let below = curve[0];
  if (below === undefined) return Number.NaN;
  for (const point of curve) {
    if (nm <= point[0]) {
      const width = point[0] - below[0];
      return width === 0 ? point[1] : below[1] + ((point[1] - below[1]) * (nm - below[0])) / width;
    }
    below = point;
  }
  return below[1];
}

/** Mean of a curve over a band, each wavelength counted by its share of the power. */
export function weightedMean({ nm, weights }: Band, curve: Curve): number {
  let mean = 0;
  for (let i = 0; i < nm.length; i++) {
    mean += (weights[i] ?? 0) * curveAt(curve, nm[i] ?? Number.NaN);
  }
  return mean;
}

/**
 * Spectral mismatch correction factor F*: the factor for a reading of `measured` light by a
 * radiometer calibrated with other light. International Lighting Vocabulary CIE S 017, term
 * 17-25-115 and IEC 60050-845:
 *
 *     F* = (sum S V / sum S s) (sum A s / sum A V)
 *
 * with S the measured light, A the calibration source, s the relative responsivity and V the
 * nominal one of the instrument (constant for irradiance).
 */
export function mismatchFactor(
  responsivity: Curve,
  measured: Band,
  calibration: Band,
  wanted: Curve = LEVEL,
): number {
  return (
    (weightedMean(measured, wanted) / weightedMean(measured, responsivity)) *
    (weightedMean(calibration, responsivity) / weightedMean(calibration, wanted))
  );
}

/** An ideal radiometer weighs all wavelengths alike. */
const LEVEL: Curve = [[0, 1]];

/** Demo lamp: one kind of diode. */
export const DEMO_LAMP_BAND: Band = gaussianBand(365, 12);

/** Demo daylight below 420 nm: rises with wavelength, like the sun's; shape from memory. */
export const DEMO_DAYLIGHT_BAND: Band = {
  nm: [310, 330, 350, 370, 390, 410],
  weights: [0.03, 0.09, 0.13, 0.18, 0.22, 0.35],
};

/** Demo radiometer: relative responsivity, rising by 0.57 % a nanometre over the lamp's band. */
export const DEMO_RADIOMETER: Curve = [
  [300, 0.3],
  [340, 0.8],
  [375, 1],
  [385, 0.999],
  [395, 0.995],
  [405, 0.988],
  [420, 0.95],
  [450, 0.6],
];

/** Demo cover film: share of the light that passes, reflection at both faces included. */
export const DEMO_FILM: Curve = [
  [300, 0.05],
  [320, 0.4],
  [350, 0.83],
  [370, 0.87],
  [390, 0.89],
  [420, 0.9],
];

/** Demo resin: how well its initiator uses light, relative to its best wavelength. */
export const DEMO_RESIN_ACTION: Curve = [
  [300, 0.9],
  [350, 1],
  [380, 0.95],
  [395, 0.7],
  [410, 0.3],
  [430, 0],
];
