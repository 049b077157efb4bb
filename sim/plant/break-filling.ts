/**
 * Filling of one gap: the resin front moves by plane Poiseuille flow under chamber pressure and
 * capillary pressure against the trapped gas. The gas obeys Boyle, works its way out past the resin
 * while it stands expanded under vacuum, and dissolves slowly under pressure. A first model: one gap
 * stands for the whole break, and the two rates of gas loss are demo values.
 */

export interface Gap {
  readonly lengthM: number;
  readonly apertureM: number;
  /** Time in which expanded gas leaves past resin of the reference viscosity, s; demo. */
  readonly escapeS: number;
}

export interface Filling {
  /** Length filled with resin. */
  frontM: number;
  /** Trapped gas as pressure times length, Pa m: constant in a closed gap (Boyle). */
  gasPaM: number;
}

export interface Resin {
  readonly viscosityPaSAt20C: number;
  readonly surfaceTensionNPerM: number;
  readonly contactAngleRad: number;
}

/** Demo resin; surface tension and contact angle are of the order of acrylates (from memory). */
export const DEMO_RESIN: Omit<Resin, 'viscosityPaSAt20C'> = {
  surfaceTensionNPerM: 0.035,
  contactAngleRad: (20 * Math.PI) / 180,
};
/** Viscosity falls by about 6 % a kelvin near room temperature; demo. */
const ARRHENIUS_K = 5000;
/** Escape is told for this viscosity. */
const REFERENCE_VISCOSITY_PA_S = 0.05;
/** Gas under pressure dissolves into the resin in about this time; demo. */
const DISSOLVING_S = 110;
/** The pit is already wet: the flow path is never shorter than this share of the gap. */
const SHORTEST_PATH_RATIO = 0.02;
/** What is left of a gap that the eye calls filled to the end. */
const LAST_RATIO = 1e-5;

export function viscosityPaS({ viscosityPaSAt20C }: Resin, resinK: number): number {
  return viscosityPaSAt20C * Math.exp(ARRHENIUS_K * (1 / resinK - 1 / 293.15));
}

/** Young-Laplace between parallel plates. */
export function capillaryPa(
  apertureM: number,
  { surfaceTensionNPerM, contactAngleRad }: Pick<Resin, 'surfaceTensionNPerM' | 'contactAngleRad'>,
): number {
  return (2 * surfaceTensionNPerM * Math.cos(contactAngleRad)) / apertureM;
}

/** Mean velocity of plane Poiseuille flow over a path, m/s. */
export function frontSpeedMPerS(
  apertureM: number,
  drivingPa: number,
  viscosity: number,
  pathM: number,
): number {
  return (apertureM * apertureM * drivingPa) / (12 * viscosity * pathM);
}

export function emptyFilling({ lengthM }: Gap, atmospherePa: number): Filling {
  return { frontM: 0, gasPaM: atmospherePa * lengthM };
}

/** Share of its first amount that leaves in a second; what an eye sees as bubbles. */
export function escapePerS(
  { escapeS }: Gap,
  chamberPa: number,
  atmospherePa: number,
  viscosity: number,
): number {
  const expansion = 1 - chamberPa / atmospherePa;
  if (expansion <= 0) return 0;
  return (expansion / escapeS) * (REFERENCE_VISCOSITY_PA_S / viscosity);
}

/** Advances front and gas by `dtS`, in place; only called while resin stands over the gap. */
export function stepFilling(
  filling: Filling,
  gap: Gap,
  drive: {
    readonly chamberPa: number;
    readonly atmospherePa: number;
    readonly capillaryPa: number;
    readonly viscosity: number;
  },
  dtS: number,
): void {
  const { lengthM, apertureM } = gap;
  const room = lengthM - filling.frontM;
  const gasPa = filling.gasPaM / room;
  const path = Math.max(filling.frontM, SHORTEST_PATH_RATIO * lengthM);
  const driving = drive.chamberPa + drive.capillaryPa - gasPa;
  const speed = frontSpeedMPerS(apertureM, driving, drive.viscosity, path);
  // The last of the gas is stiff as a spring: take its reaction at the end of the step.
  const stiffnessPerS = (apertureM * apertureM * gasPa) / (12 * drive.viscosity * path * room);
  const front = filling.frontM + (speed * dtS) / (1 + stiffnessPerS * dtS);
  filling.frontM = Math.min(Math.max(front, 0), lengthM * (1 - LAST_RATIO));
  const leaving = escapePerS(gap, drive.chamberPa, drive.atmospherePa, drive.viscosity);
  const excess = Math.max(0, 1 - drive.atmospherePa / gasPa);
  const dissolving = drive.chamberPa > drive.atmospherePa ? excess / DISSOLVING_S : 0;
  filling.gasPaM -= filling.gasPaM * (leaving + dissolving) * dtS;
}
