/**
 * Shapes of the gaps that make up a break, with closed forms for what a resin front needs:
 * aperture, cross-section, volume and flow resistance from the mouth to a position x. A disc
 * (bullseye) is fed from the pit outwards, a leg (of a star) narrows in width and aperture alike to
 * its tip, a crack keeps its width. Apertures fall linearly along x.
 */

export interface GapSizes {
  readonly kind: 'disc' | 'leg' | 'crack';
  /** Number of identical gaps in the break; one is computed. */
  readonly count: number;
  /** From the mouth to the end, m; for a disc along the radius. */
  readonly lengthM: number;
  readonly mouthApertureM: number;
  /** Aperture (and width of a leg) at the end relative to the mouth, above 0 to 1. */
  readonly endRatio: number;
  /** Width across the flow at the mouth, m; for a disc the arc at the mouth. */
  readonly widthM: number;
  /** Radius at which a disc is fed, m; 0 for the other kinds. */
  readonly pitRadiusM: number;
  /** Share of the gap's flow that a finger of gas takes to itself; fitted. */
  readonly fingerRatio: number;
}

/** Sizes, with derived values that every step needs. */
export interface Gap extends GapSizes {
  /** Share of the mouth's aperture that is lost per metre. */
  readonly taperPerM: number;
  readonly volumeM3: number;
  /** Resistance of a meniscus at the mouth, 1/m³. */
  readonly meniscusPerM3: number;
  /** Resistance of so little resin that its front does not matter, 1/m³. */
  readonly firstPerM3: number;
}

/** Closer to the mouth than this share of its length a front does not matter. */
export const FIRST_RATIO = 1e-6;

/** A meniscus at the mouth resists like so much of the gap's length; fitted. */
const MENISCUS_M = 2.5e-3;

export function gapOf(sizes: GapSizes): Gap {
  const taperPerM = (1 - sizes.endRatio) / sizes.lengthM;
  // Field by field, so that the objects of all gaps have one layout and the step stays fast.
  const gap = {
    kind: sizes.kind,
    count: sizes.count,
    lengthM: sizes.lengthM,
    mouthApertureM: sizes.mouthApertureM,
    endRatio: sizes.endRatio,
    widthM: sizes.widthM,
    pitRadiusM: sizes.pitRadiusM,
    fingerRatio: sizes.fingerRatio,
    taperPerM,
    volumeM3: 0,
    meniscusPerM3: 0,
    firstPerM3: 0,
  };
  gap.meniscusPerM3 = (12 * MENISCUS_M) / (gap.widthM * gap.mouthApertureM ** 3);
  gap.volumeM3 = filledM3(gap, gap.lengthM);
  gap.firstPerM3 = resistancePerM3(gap, FIRST_RATIO * gap.lengthM);
  return gap;
}

/** Local aperture relative to the mouth. */
const narrowing = ({ taperPerM }: Gap, xM: number): number => 1 - taperPerM * xM;

export const apertureM = (gap: Gap, xM: number): number => gap.mouthApertureM * narrowing(gap, xM);

/** Width across the flow at x, m. */
export function widthM(gap: Gap, xM: number): number {
  if (gap.kind === 'leg') return gap.widthM * narrowing(gap, xM);
  if (gap.kind === 'disc') return gap.widthM * (1 + xM / gap.pitRadiusM);
  return gap.widthM;
}

/** Change of the cross-section along the gap, relative to the cross-section, 1/m. */
export function wideningPerM(gap: Gap, xM: number): number {
  const aperturePerM = -gap.taperPerM / narrowing(gap, xM);
  if (gap.kind === 'leg') return 2 * aperturePerM;
  if (gap.kind === 'disc') return aperturePerM + 1 / (gap.pitRadiusM + xM);
  return aperturePerM;
}

/** Volume from the mouth to x, m³. */
export function filledM3(gap: Gap, xM: number): number {
  const q = narrowing(gap, xM);
  const slab = gap.widthM * gap.mouthApertureM * xM;
  if (gap.kind === 'leg') return (slab * (1 + q + q * q)) / 3;
  const mean = (1 + q) / 2;
  if (gap.kind === 'crack') return slab * mean;
  // The mean of aperture times radius: the outer half of a disc weighs more.
  return slab * (mean + ((1 + 2 * q) * xM) / (6 * gap.pitRadiusM));
}

/** Area in the gap's own plane from the mouth to x, m²: what the eye sees as light or dark. */
export function seenM2(gap: Gap, xM: number): number {
  const strip = gap.widthM * xM;
  if (gap.kind === 'leg') return (strip * (1 + narrowing(gap, xM))) / 2;
  if (gap.kind === 'disc') return strip * (1 + xM / (2 * gap.pitRadiusM));
  return strip;
}

/**
 * Pressure drop from the mouth to x per flow and viscosity, 1/m³: the integral of 12 / (w h³),
 * plane Poiseuille flow in a gap much narrower than it is wide.
 */
export function resistancePerM3(gap: Gap, xM: number): number {
  const { mouthApertureM: h0, widthM: w0 } = gap;
  const q = narrowing(gap, xM);
  const slab = (12 * xM) / (w0 * h0 * h0 * h0);
  if (gap.kind === 'leg') return (slab * (1 + q + q * q)) / (3 * q * q * q);
  if (gap.kind === 'crack') return (slab * (1 + q)) / (2 * q * q);
  return discResistancePerM3(gap, xM, q);
}

/**
 * Partial fractions of 1 / (r h³); c is the aperture extrapolated to the axis, relative to the
 * mouth's.
 */
function discResistancePerM3(gap: Gap, xM: number, q: number): number {
  const { mouthApertureM: h0, widthM: w0, pitRadiusM, taperPerM } = gap;
  const c = 1 + taperPerM * pitRadiusM;
  const inverse = 1 / q;
  const narrow = inverse - 1;
  // The logarithm of a term that grows from 1 near the mouth, exact to rounding there too.
  const growth = (c * xM) / (pitRadiusM * q);
  const log = growth < 1e-3 ? growth * (1 - growth * (0.5 - growth / 3)) : Math.log(1 + growth);
  const sum = (log / c + narrow) / c + (narrow * (inverse + 1)) / 2;
  return (12 * pitRadiusM * sum) / (w0 * h0 * h0 * h0 * c);
}
