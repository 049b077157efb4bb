/**
 * The effect of heat and pressure on a cracked pane: stress through the thickness, the ring of
 * tension round a warm spot, and the stress intensity at the tip of a leg against the strength of
 * glass. Tension is positive. The real intensity is lower (a finite leg, a bonded ply): the result
 * ranks cases and is no limit. Formulas: Timoshenko and Goodier, Theory of Elasticity; Tada, Paris
 * and Irwin, The Stress Analysis of Cracks Handbook (both from memory).
 */
import type { Laminate } from './laminate.ts';
import type { Layer, Pane } from './pane.ts';

/**
 * How the pane is held: it may neither grow nor bend (`clamped`, relative to its first
 * temperature), grow but not bend (`flat`, like a curved screen in its frame), or both (`free`).
 */
export type Hold = 'clamped' | 'flat' | 'free';

/** Edge crack in a half plane under uniform tension: 1.1215, rounded as in the trade. */
const EDGE_CRACK = 1.12;

const at = (values: Float64Array, i: number): number => values[i] as number;

/** Stress in a plate of glass that is `aboveK` warmer than its restraint allows, Pa. */
export function restrainedPa(pane: Pane, aboveK: number): number {
  return -(pane.youngPa * pane.expansionPerK * aboveK) / (1 - pane.poissonRatio);
}

export interface PaneStress {
  outerFacePa: number;
  innerFacePa: number;
  /** Greatest tension of any glass cell or face; 0 where everything is compressed. */
  tensionPa: number;
  /** By cell of the laminate; 0 in the interlayer. */
  readonly cellPa: Float64Array;
}

export function createPaneStress({ spot }: Laminate): PaneStress {
  return {
    outerFacePa: 0,
    innerFacePa: 0,
    tensionPa: 0,
    cellPa: new Float64Array(spot.cells),
  };
}

/**
 * Stress through the thickness far from an edge, in place. Plane sections stay plane (the
 * interlayer is treated as stiff in shear and soft along the pane), so the glass is stressed by the
 * deviation of its temperature from a constant or a line: the best constant carries no net force,
 * and the best line no moment either.
 */
export function setPaneStress(
  stress: PaneStress,
  laminate: Laminate,
  pane: Pane,
  hold: Hold,
): void {
  const { spot, outerK, innerK, startK, thicknessM } = laminate;
  const { cellPa } = stress;
  const cellsALayer = spot.cells / pane.layers.length;
  let weightM = 0;
  let sumKM = 0;
  let sumM2 = 0;
  let depthM = 0;
  for (let i = 0; i < spot.cells; i++) {
    const widthM = at(spot.widthM, i);
    if (isGlass(pane, Math.floor(i / cellsALayer))) {
      weightM += widthM;
      sumKM += widthM * at(spot.temperatureK, i);
      sumM2 += widthM * (depthM + widthM / 2);
    }
    depthM += widthM;
  }
  const middleM = sumM2 / weightM;
  const meanK = hold === 'clamped' ? startK : sumKM / weightM;
  const slopeKPerM = hold === 'free' ? slopeOfGlass(laminate, pane, middleM) : 0;
  stress.outerFacePa = restrainedPa(pane, outerK - meanK + slopeKPerM * middleM);
  stress.innerFacePa = restrainedPa(pane, innerK - meanK - slopeKPerM * (thicknessM - middleM));
  let tensionPa = Math.max(0, stress.outerFacePa, stress.innerFacePa);
  depthM = 0;
  for (let i = 0; i < spot.cells; i++) {
    const widthM = at(spot.widthM, i);
    const lineK = meanK + slopeKPerM * (depthM + widthM / 2 - middleM);
    const glass = isGlass(pane, Math.floor(i / cellsALayer));
    const pa = glass ? restrainedPa(pane, at(spot.temperatureK, i) - lineK) : 0;
    cellPa[i] = pa;
    if (pa > tensionPa) tensionPa = pa;
    depthM += widthM;
  }
  stress.tensionPa = tensionPa;
}

const isGlass = (pane: Pane, layer: number): boolean =>
  (pane.layers[layer] as Layer).kind === 'glass';

/** Slope of the best line through the temperatures of the glass, K/m. */
function slopeOfGlass({ spot }: Laminate, pane: Pane, middleM: number): number {
  const cellsALayer = spot.cells / pane.layers.length;
  let momentKM2 = 0;
  let inertiaM3 = 0;
  let depthM = 0;
  for (let i = 0; i < spot.cells; i++) {
    const widthM = at(spot.widthM, i);
    if (isGlass(pane, Math.floor(i / cellsALayer))) {
      const armM = depthM + widthM / 2 - middleM;
      momentKM2 += widthM * armM * at(spot.temperatureK, i);
      inertiaM3 += widthM * armM * armM;
    }
    depthM += widthM;
  }
  return inertiaM3 > 0 ? momentKM2 / inertiaM3 : 0;
}

/**
 * Hoop stress of a wide pane with a disc `overPaneK` warmer than the rest: half of E alpha dT, as
 * compression inside the disc and as tension just outside, where it falls off with the square of
 * the distance. A colder disc has the opposite signs.
 */
export function hoopPa(
  pane: Pane,
  overPaneK: number,
  spotRadiusM: number,
  fromCentreM: number,
): number {
  const rimPa = (pane.youngPa * pane.expansionPerK * overPaneK) / 2;
  if (fromCentreM < spotRadiusM) return -rimPa;
  const ratio = spotRadiusM / fromCentreM;
  return rimPa * ratio * ratio;
}

/** The load that opens a leg: stress across it and pressure in it relative to outside, both Pa. */
export interface LegLoad {
  readonly legM: number;
  readonly acrossPa: number;
  readonly insideGaugePa: number;
}

/** Stress intensity at the tip, Pa sqrt(m); 0 where the leg is pressed shut. */
export function tipIntensityPaSqrtM({ legM, acrossPa, insideGaugePa }: LegLoad): number {
  return Math.max(0, EDGE_CRACK * (acrossPa + insideGaugePa) * Math.sqrt(Math.PI * legM));
}

export interface TipDanger {
  readonly intensityPaSqrtM: number;
  /** At 1 the leg runs. */
  readonly toughnessRatio: number;
  /** From 1 on the leg creeps in moist air. */
  readonly slowGrowthRatio: number;
}

export function tipDanger(pane: Pane, load: LegLoad): TipDanger {
  const intensityPaSqrtM = tipIntensityPaSqrtM(load);
  return {
    intensityPaSqrtM,
    toughnessRatio: intensityPaSqrtM / pane.toughnessPaSqrtM,
    slowGrowthRatio: intensityPaSqrtM / pane.slowGrowthPaSqrtM,
  };
}
