/**
 * Temperature of a laminated pane at the worked spot: through its thickness, with the surrounding
 * pane as a second column that has the same air and sun but no gun, lamp or heater. Exchanged heat
 * is booked by path (J per m2 of spot), so that the balance can be checked. The caller supplies
 * air, sun and gun; stress is in stress.ts.
 */
import { createColumn, type HeatColumn, stepColumn } from './heat-column.ts';
import { type Pane, paneSheetWPerK, paneThicknessM } from './pane.ts';
import { radiationSlopeWPerM2K } from './pane-face.ts';
import { spotLossPerM2 } from './spot-loss.ts';

/** Temperatures in K, coefficients in W/(m2 K), heat in W/m2 of spot. */
export interface PaneSurroundings {
  outerAirK: number;
  innerAirK: number;
  /** Convection alone; the model adds radiation. */
  outerFilmWPerM2K: number;
  innerFilmWPerM2K: number;
  /** Temperature of what the faces see, as black enclosures. */
  outerRadiantK: number;
  innerRadiantK: number;
  /** Warm air gun on the outer face of the spot; a coefficient of 0 is off. */
  gunK: number;
  gunWPerM2K: number;
  /** Sun on the outer face. */
  sunWPerM2: number;
  /** Curing lamp on the outer face of the spot. */
  lampWPerM2: number;
  /** Directly into the outer face of the spot. */
  heaterWPerM2: number;
}

/** Heat into the spot by each path since its creation, J/m2. */
export interface HeatBook {
  outerAirJPerM2: number;
  innerAirJPerM2: number;
  outerRadiationJPerM2: number;
  innerRadiationJPerM2: number;
  gunJPerM2: number;
  sunJPerM2: number;
  lampJPerM2: number;
  heaterJPerM2: number;
  /** From the surrounding pane; negative while the spot is warmer. */
  aroundJPerM2: number;
}

export interface Laminate {
  readonly startK: number;
  readonly thicknessM: number;
  readonly spot: HeatColumn;
  readonly around: HeatColumn;
  /** Shares of sun and lamp, by cell. */
  readonly sunRatio: Float64Array;
  readonly lampRatio: Float64Array;
  readonly allSunRatio: number;
  readonly allLampRatio: number;
  /** Weights of the means, adding up to 1 each. */
  readonly meanWeight: Float64Array;
  readonly interlayerWeight: Float64Array;
  readonly book: HeatBook;
  outerK: number;
  innerK: number;
  /** Of the whole pane where it has no interlayer. */
  interlayerK: number;
  meanK: number;
  /** Temperature difference of the faces (outer minus inner) per thickness, K/m. */
  gradientKPerM: number;
  aroundK: number;
  /** Mean of the spot minus that of the surrounding pane. */
  spotOverPaneK: number;
}

/** Still air on a pane: EN 673's 3.6 W/(m2 K) of indoor convection (from memory). */
export const STILL_AIR_WPERM2K = 3.6;

/** A pane in a room: still air and walls at its temperature, nothing switched on. */
export function roomAt(airK: number): PaneSurroundings {
  return {
    outerAirK: airK,
    innerAirK: airK,
    outerFilmWPerM2K: STILL_AIR_WPERM2K,
    innerFilmWPerM2K: STILL_AIR_WPERM2K,
    outerRadiantK: airK,
    innerRadiantK: airK,
    gunK: airK,
    gunWPerM2K: 0,
    sunWPerM2: 0,
    lampWPerM2: 0,
    heaterWPerM2: 0,
  };
}

export interface LaminateOptions {
  /** Radius of the warmed spot, m; infinite means no sideways loss. */
  readonly spotRadiusM: number;
  readonly cellsALayer: number;
}

/** A spot the size of an air gun's jet; demo. Four cells a layer: within 0.1 K, see the tests. */
export const DEMO_SPOT: LaminateOptions = { spotRadiusM: 0.03, cellsALayer: 4 };

/** The sideways loss is fixed here, with still air and radiation at the first temperature. */
export function createLaminate(
  pane: Pane,
  temperatureK: number,
  { spotRadiusM, cellsALayer }: LaminateOptions = DEMO_SPOT,
): Laminate {
  const { layers, emissivity } = pane;
  const facesWPerM2K = 2 * (STILL_AIR_WPERM2K + radiationSlopeWPerM2K(emissivity, temperatureK));
  const sidePerM2 = spotLossPerM2(spotRadiusM, facesWPerM2K, paneSheetWPerK(pane));
  const spot = createColumn(layers, cellsALayer, emissivity, temperatureK, sidePerM2);
  const thicknessM = paneThicknessM(pane);
  const byCell = (value: (layer: number, i: number) => number): Float64Array =>
    Float64Array.from({ length: spot.cells }, (_, i) => value(Math.floor(i / cellsALayer), i));
  const meanWeight = byCell((_, i) => at(spot.widthM, i) / thicknessM);
  const soft = byCell((layer, i) =>
    layers[layer]?.kind === 'interlayer' ? at(spot.widthM, i) : 0,
  );
  const softM = soft.reduce((sum, widthM) => sum + widthM, 0);
  return {
    startK: temperatureK,
    thicknessM,
    spot,
    around: createColumn(layers, cellsALayer, emissivity, temperatureK, 0),
    sunRatio: byCell((layer) => (layers[layer]?.sunRatio ?? 0) / cellsALayer),
    lampRatio: byCell((layer) => (layers[layer]?.lampRatio ?? 0) / cellsALayer),
    allSunRatio: layers.reduce((sum, { sunRatio }) => sum + sunRatio, 0),
    allLampRatio: layers.reduce((sum, { lampRatio }) => sum + lampRatio, 0),
    meanWeight,
    interlayerWeight: softM > 0 ? soft.map((widthM) => widthM / softM) : meanWeight,
    book: emptyBook(),
    outerK: temperatureK,
    innerK: temperatureK,
    interlayerK: temperatureK,
    meanK: temperatureK,
    gradientKPerM: 0,
    aroundK: temperatureK,
    spotOverPaneK: 0,
  };
}

/** Advances spot and surrounding pane, in place; made for 10 to 50 ms and stable at any step. */
export function stepLaminate(
  laminate: Laminate,
  surroundings: PaneSurroundings,
  dtS: number,
): void {
  const { spot, around } = laminate;
  setAir(spot, surroundings);
  setAir(around, surroundings);
  spot.outer.gunK = surroundings.gunK;
  spot.outer.gunWPerM2K = surroundings.gunWPerM2K;
  spot.outer.heatWPerM2 = surroundings.heaterWPerM2;
  setSources(laminate, surroundings);
  stepColumn(around, around, dtS);
  stepColumn(spot, around, dtS);
  bookHeat(laminate, surroundings, dtS);
  observe(laminate);
}

/** Total heat that entered, J/m2: `storedJPerM2` must equal it. */
export function enteredJPerM2({ book }: Laminate): number {
  return (
    book.outerAirJPerM2 +
    book.innerAirJPerM2 +
    book.outerRadiationJPerM2 +
    book.innerRadiationJPerM2 +
    book.gunJPerM2 +
    book.sunJPerM2 +
    book.lampJPerM2 +
    book.heaterJPerM2 +
    book.aroundJPerM2
  );
}

/** Heat in the spot relative to its first temperature, J/m2. */
export function storedJPerM2({ spot, startK }: Laminate): number {
  let sum = 0;
  for (let i = 0; i < spot.cells; i++) {
    sum += at(spot.capacityJPerM2K, i) * (at(spot.temperatureK, i) - startK);
  }
  return sum;
}

const at = (values: Float64Array, i: number): number => values[i] as number;

function emptyBook(): HeatBook {
  return {
    outerAirJPerM2: 0,
    innerAirJPerM2: 0,
    outerRadiationJPerM2: 0,
    innerRadiationJPerM2: 0,
    gunJPerM2: 0,
    sunJPerM2: 0,
    lampJPerM2: 0,
    heaterJPerM2: 0,
    aroundJPerM2: 0,
  };
}

function setAir({ outer, inner }: HeatColumn, surroundings: PaneSurroundings): void {
  outer.airK = surroundings.outerAirK;
  outer.filmWPerM2K = surroundings.outerFilmWPerM2K;
  outer.radiantK = surroundings.outerRadiantK;
  inner.airK = surroundings.innerAirK;
  inner.filmWPerM2K = surroundings.innerFilmWPerM2K;
  inner.radiantK = surroundings.innerRadiantK;
}

function setSources(laminate: Laminate, { sunWPerM2, lampWPerM2 }: PaneSurroundings): void {
  const { spot, around, sunRatio, lampRatio } = laminate;
  for (let i = 0; i < spot.cells; i++) {
    const sun = at(sunRatio, i) * sunWPerM2;
    around.sourceWPerM2[i] = sun;
    spot.sourceWPerM2[i] = sun + at(lampRatio, i) * lampWPerM2;
  }
}

/**
 * Every path is linear in the mean surface temperature of the step, so this is exactly the heat
 * that was moved.
 */
function bookHeat(laminate: Laminate, surroundings: PaneSurroundings, dtS: number): void {
  const { book, spot } = laminate;
  const { outer, inner, outerMeanK, innerMeanK } = spot;
  book.outerAirJPerM2 += dtS * outer.filmWPerM2K * (outer.airK - outerMeanK);
  book.innerAirJPerM2 += dtS * inner.filmWPerM2K * (inner.airK - innerMeanK);
  book.outerRadiationJPerM2 += dtS * (outer.radiationWPerM2 - outer.radiationWPerM2K * outerMeanK);
  book.innerRadiationJPerM2 += dtS * (inner.radiationWPerM2 - inner.radiationWPerM2K * innerMeanK);
  book.gunJPerM2 += dtS * outer.gunWPerM2K * (outer.gunK - outerMeanK);
  book.sunJPerM2 += dtS * laminate.allSunRatio * surroundings.sunWPerM2;
  book.lampJPerM2 += dtS * laminate.allLampRatio * surroundings.lampWPerM2;
  book.heaterJPerM2 += dtS * outer.heatWPerM2;
  book.aroundJPerM2 += spot.sideJPerM2;
}

function observe(laminate: Laminate): void {
  const { spot, around, meanWeight, interlayerWeight } = laminate;
  let meanK = 0;
  let interlayerK = 0;
  let aroundK = 0;
  for (let i = 0; i < spot.cells; i++) {
    const hereK = at(spot.temperatureK, i);
    meanK += at(meanWeight, i) * hereK;
    interlayerK += at(interlayerWeight, i) * hereK;
    aroundK += at(meanWeight, i) * at(around.temperatureK, i);
  }
  laminate.outerK = spot.outer.surfaceK;
  laminate.innerK = spot.inner.surfaceK;
  laminate.meanK = meanK;
  laminate.interlayerK = interlayerK;
  laminate.aroundK = aroundK;
  laminate.spotOverPaneK = meanK - aroundK;
  laminate.gradientKPerM = (laminate.outerK - laminate.innerK) / laminate.thicknessM;
}
