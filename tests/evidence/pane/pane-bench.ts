/** Panes and runs that the outside checks of heat and stress share. */
import {
  createLaminate,
  type Laminate,
  type PaneSurroundings,
  roomAt,
  stepLaminate,
} from '../../../sim/plant/pane/laminate.ts';
import { DEMO_PANE, FLOAT_GLASS, type Layer, type Pane } from '../../../sim/plant/pane/pane.ts';

/** A film so thin that the face takes the air's temperature. */
export const HELD_WPERM2K = 1e9;
export const GLASS_DIFFUSIVITY = 1 / (2500 * 720);

export const layerOf = (
  thicknessM: number,
  rest: Partial<Layer> & Pick<Layer, 'conductivityWPerMK'> = FLOAT_GLASS,
): Layer => ({ ...FLOAT_GLASS, sunRatio: 0, lampRatio: 0, ...rest, thicknessM });

/** A pane that does not radiate unless told. */
export const paneOf = (layers: readonly Layer[], emissivity = 0): Pane => ({
  ...DEMO_PANE,
  layers,
  emissivity,
});

/** Two airs with fixed films. */
export const between = (
  outerAirK: number,
  outerFilmWPerM2K: number,
  innerAirK: number,
  innerFilmWPerM2K: number,
): PaneSurroundings => ({
  ...roomAt(outerAirK),
  outerFilmWPerM2K,
  innerAirK,
  innerFilmWPerM2K,
});

/** A wide piece of pane, so that nothing goes sideways. */
export const widePane = (pane: Pane, temperatureK: number, cellsALayer: number): Laminate =>
  createLaminate(pane, temperatureK, { spotRadiusM: Number.POSITIVE_INFINITY, cellsALayer });

export function runFor(
  laminate: Laminate,
  surroundings: PaneSurroundings,
  seconds: number,
  dtS: number,
): Laminate {
  const steps = Math.round(seconds / dtS);
  for (let i = 0; i < steps; i++) stepLaminate(laminate, surroundings, dtS);
  return laminate;
}

/** Temperature at a depth, by a straight line between the middles of cells. */
export function atDepthK({ spot }: Laminate, depthM: number): number {
  let middleM = spot.widthM[0]! / 2;
  for (let i = 0; i + 1 < spot.cells; i++) {
    const nextM = middleM + (spot.widthM[i]! + spot.widthM[i + 1]!) / 2;
    if (depthM <= nextM) {
      const share = (depthM - middleM) / (nextM - middleM);
      return spot.temperatureK[i]! + share * (spot.temperatureK[i + 1]! - spot.temperatureK[i]!);
    }
    middleM = nextM;
  }
  return Number.NaN;
}

/** Time at which the mean temperature passes a value, by a straight line within the step. */
export function timeToMeanS(
  laminate: Laminate,
  surroundings: PaneSurroundings,
  targetK: number,
  dtS: number,
): number {
  for (let i = 0; i < 1e6; i++) {
    const beforeK = laminate.meanK;
    stepLaminate(laminate, surroundings, dtS);
    if ((beforeK - targetK) * (laminate.meanK - targetK) <= 0) {
      return (i + (targetK - beforeK) / (laminate.meanK - beforeK)) * dtS;
    }
  }
  return Number.NaN;
}
