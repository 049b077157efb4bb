/**
 * One face of a pane: air, a warm air gun, radiation and heat applied directly, against the half
 * cell of glass behind it. Radiation follows the fourth power; for a step it is replaced by its
 * tangent at the face's temperature at the beginning of the step, so that the step stays linear and
 * second order.
 */

/** Stefan and Boltzmann, W/(m2 K4); exact since the SI of 2019, CODATA 2018. */
export const STEFAN_BOLTZMANN = 5.670374419e-8;

export interface Face {
  readonly emissivity: number;
  /** From the middle of the outermost cell to the surface, W/(m2 K). */
  readonly glassWPerM2K: number;
  airK: number;
  /** Convection only, W/(m2 K). */
  filmWPerM2K: number;
  gunK: number;
  gunWPerM2K: number;
  /** Temperature of everything that the face sees, as one black enclosure. */
  radiantK: number;
  /** Applied directly to the face, W/m2. */
  heatWPerM2: number;
  surfaceK: number;
  /** Tangent of the radiation: heat in is `radiationWPerM2` minus `radiationWPerM2K` per kelvin. */
  radiationWPerM2: number;
  radiationWPerM2K: number;
  /**
   * Heat into the outermost cell: `intoCellWPerM2` minus `intoCellWPerM2K` times its temperature.
   */
  intoCellWPerM2: number;
  intoCellWPerM2K: number;
}

export function createFace(emissivity: number, glassWPerM2K: number, temperatureK: number): Face {
  return {
    emissivity,
    glassWPerM2K,
    airK: temperatureK,
    filmWPerM2K: 0,
    gunK: temperatureK,
    gunWPerM2K: 0,
    radiantK: temperatureK,
    heatWPerM2: 0,
    surfaceK: temperatureK,
    radiationWPerM2: 0,
    radiationWPerM2K: 0,
    intoCellWPerM2: 0,
    intoCellWPerM2K: 0,
  };
}

/** Net radiation into a surface that sees a black enclosure, W/m2. */
export function radiationWPerM2(emissivity: number, surfaceK: number, radiantK: number): number {
  const surface2 = surfaceK * surfaceK;
  const radiant2 = radiantK * radiantK;
  return emissivity * STEFAN_BOLTZMANN * (radiant2 * radiant2 - surface2 * surface2);
}

/** How much more a surface radiates for each kelvin, W/(m2 K). */
export function radiationSlopeWPerM2K(emissivity: number, surfaceK: number): number {
  return 4 * emissivity * STEFAN_BOLTZMANN * surfaceK * surfaceK * surfaceK;
}

/** Surface temperature by two steps of Newton's method (1e-9 K), and the tangent there. */
export function lineariseFace(face: Face, cellK: number): void {
  setTangent(face);
  face.surfaceK = surfaceAtK(face, cellK);
  setTangent(face);
  face.surfaceK = surfaceAtK(face, cellK);
  setTangent(face);
  const { glassWPerM2K } = face;
  const outsideWPerM2K = face.filmWPerM2K + face.gunWPerM2K + face.radiationWPerM2K;
  const share = glassWPerM2K / (glassWPerM2K + outsideWPerM2K);
  face.intoCellWPerM2 = share * broughtWPerM2(face);
  face.intoCellWPerM2K = share * outsideWPerM2K;
}

/** Surface temperature at which no heat flows, with the radiation on its tangent. */
export function surfaceAtK(face: Face, cellK: number): number {
  const { glassWPerM2K } = face;
  const outsideWPerM2K = face.filmWPerM2K + face.gunWPerM2K + face.radiationWPerM2K;
  return (glassWPerM2K * cellK + broughtWPerM2(face)) / (glassWPerM2K + outsideWPerM2K);
}

function setTangent(face: Face): void {
  const { surfaceK, emissivity } = face;
  face.radiationWPerM2K = radiationSlopeWPerM2K(emissivity, surfaceK);
  face.radiationWPerM2 =
    radiationWPerM2(emissivity, surfaceK, face.radiantK) + face.radiationWPerM2K * surfaceK;
}

/** Heat that would enter if the surface were at 0 K on the tangent, W/m2. */
function broughtWPerM2(face: Face): number {
  return (
    face.filmWPerM2K * face.airK +
    face.gunWPerM2K * face.gunK +
    face.radiationWPerM2 +
    face.heatWPerM2
  );
}
