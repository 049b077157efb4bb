/**
 * The light errors of one unit, drawn from the very budget that its unit file states: the sensor's
 * gain, spectrum, seat, temperature and drift, its zero and bow, and what differs on the way from
 * the lamp to the resin (film, evenness of the spot, distance). A stated limit is drawn evenly
 * between its ends, a certificate's figure as normal. So it can be counted how often a unit that
 * says "met" is wrong. The physics of sensor and plant use the draws.
 */
import { DEMO_RADIOMETER, gaussianBand, mismatchFactor } from '../plant/light/spectrum.ts';
import type { LitRow } from '../plant/plant-state.ts';
import type { Chance } from '../random.ts';
import { type FieldRow, litRowOf } from './field-row.ts';

/** Limits of the sensor, as shares of its reading or of its span; the calibration's is a sigma. */
interface StatedErrors {
  readonly calibrationRatio: number;
  readonly spectrumRatio: number;
  readonly placementRatio: number;
  readonly temperatureRatio: number;
  readonly driftRatio: number;
  readonly zeroRatio: number;
  readonly linearityRatio: number;
}

/** From the lamp to the resin, with the limits of what may differ. */
interface StatedPath {
  readonly lampToGlassM: number;
  readonly lampToGlassWithinM: number;
  readonly spotRadiusM: number;
  readonly spotEdgeRatio: number;
  readonly spotEdgeWithinRatio: number;
  readonly filmWithinRatio: number;
}

/** What the unit file states of its light, and how far this job's resin lies from the axis. */
export interface StatedLight {
  readonly lampPeakNm: number;
  readonly adjustedAtNm: number | null;
  readonly errors: StatedErrors;
  readonly fullWPerM2: number;
  /** Null where nothing is stated: then no resin is off the axis, and nothing varies. */
  readonly path: StatedPath | null;
  readonly fillRadiusM: number;
  readonly pitRadiusM: number;
  /** Where the lamp is moved along a crack. */
  readonly row?: FieldRow | null;
}

/** A sensor without errors, over a break on the axis. */
export const NO_LIGHT_ERRORS = {
  irradianceGain: 1,
  irradianceSeat: 1,
  /** Reading divided by truth for this lamp's light. */
  irradianceSpectralRatio: 1,
  irradianceDarkWPerM2: 0,
  /** Non-linearity: this much in the middle of the span, none at its ends. */
  irradianceBowWPerM2: 0,
} as const;
export type LightErrors = { readonly [K in keyof typeof NO_LIGHT_ERRORS]: number };

/** From the light on the axis, above the film, to that on the resin. */
export interface WayToResin {
  /** Transmission of this film against that of the world's. */
  readonly filmFactor: number;
  readonly fillRatio: number;
  readonly pitRatio: number;
  readonly row: LitRow | null;
}

/** Width of a diode's band at half of its height, nm; demo. */
const BAND_NM = 12;

export function drawLightErrors(chance: Chance, stated: StatedLight): LightErrors {
  const { errors, fullWPerM2 } = stated;
  const within = (limit: number): number => limit * (2 * chance.uniform() - 1);
  return {
    irradianceGain:
      (1 + errors.calibrationRatio * chance.gaussian()) *
      (1 + within(errors.temperatureRatio)) *
      (1 + within(errors.driftRatio)),
    irradianceSeat: 1 + within(errors.placementRatio),
    irradianceSpectralRatio: spectralRatio(stated) * (1 + within(errors.spectrumRatio)),
    irradianceDarkWPerM2: within(errors.zeroRatio) * fullWPerM2,
    irradianceBowWPerM2: within(errors.linearityRatio) * fullWPerM2,
  };
}

/** Reading over truth, for a radiometer that was made to read right at another wavelength. */
function spectralRatio({ lampPeakNm, adjustedAtNm }: StatedLight): number {
  const [lamp, adjusted] = [lampPeakNm, adjustedAtNm ?? lampPeakNm];
  return (
    1 /
    mismatchFactor(DEMO_RADIOMETER, gaussianBand(lamp, BAND_NM), gaussianBand(adjusted, BAND_NM))
  );
}

export function drawWayToResin(
  chance: Chance,
  { path, fillRadiusM, pitRadiusM, row = null }: StatedLight,
): WayToResin {
  if (path === null) return { filmFactor: 1, fillRatio: 1, pitRatio: 1, row: null };
  const within = (limit: number): number => limit * (2 * chance.uniform() - 1);
  const filmFactor = 1 + within(path.filmWithinRatio);
  const fallRatio = 1 - (path.spotEdgeRatio + within(path.spotEdgeWithinRatio));
  // Calibrated at one distance, used at another: inverse square of a small lamp.
  const { lampToGlassM } = path;
  const distance = (lampToGlassM / (lampToGlassM + within(path.lampToGlassWithinM))) ** 2;
  const at = (radiusM: number): number =>
    distance * (1 - fallRatio * Math.min(1, radiusM / path.spotRadiusM) ** 2);
  return {
    filmFactor,
    fillRatio: at(fillRadiusM),
    pitRatio: at(pitRadiusM),
    row: row === null ? null : litRowOf(row, path.spotRadiusM, at),
  };
}
