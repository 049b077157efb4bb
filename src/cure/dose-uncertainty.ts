/**
 * Standard uncertainty of a dose, and the dose that is shown to have been reached at least. The
 * sensor's gain error is common to the whole cure and never averages out; its zero error grows with
 * time; noise averages down; light between two frames at an edge is not seen. By guarded acceptance
 * (JCGM 106:2012, 8.3.2) a target is shown to be met when dose - k u reaches it, so that
 * uncertainty can only lengthen a cure. The sensor's budget supplies the figures.
 */

export interface DoseUncertaintyTerms {
  /** Relative standard uncertainty common to the whole cure. */
  readonly gainRatio: number;
  /** Standard uncertainty common to all readings. */
  readonly zeroWPerM2: number;
  /** Standard deviation of single readings about their mean. */
  readonly randomWPerM2: number;
  /**
   * How much too high all readings may be at most, by an error that is the same in every cure of
   * this unit: it does not scatter, so that it is taken off whole.
   */
  readonly biasRatio: number;
  /** Number of standard uncertainties by which the dose must exceed its target, one-sided. */
  readonly coverageFactor: number;
}

/** What the uncertainty of a dose depends on. */
export interface GivenLight {
  readonly doseJPerM2: number;
  readonly lampOnS: number;
  /** Stretches of light, each with a beginning and an end between two frames. */
  readonly pieces: number;
}

/** The longest time that one reading stands for: the controller counts no more of a late frame. */
const READING_S = 0.1;
/** A reading is the median of three samples, so that only every third is certainly a new one. */
const NEW_READING_S = 3 * READING_S;
/** Half-width of the error in the counted time of a stretch of light. */
const EDGE_S = READING_S;

export function doseUncertaintyJPerM2(
  { doseJPerM2, lampOnS, pieces }: GivenLight,
  terms: DoseUncertaintyTerms,
): number {
  return uncertaintyAt(doseJPerM2, lampOnS, pieces, terms);
}

/** Takes plain numbers, because it is called many times a tick. */
function uncertaintyAt(
  doseJPerM2: number,
  lampOnS: number,
  pieces: number,
  terms: DoseUncertaintyTerms,
) {
  if (lampOnS <= 0) return 0;
  const gain = terms.gainRatio * doseJPerM2;
  const zero = terms.zeroWPerM2 * lampOnS;
  const random = terms.randomWPerM2 * Math.sqrt(lampOnS * NEW_READING_S);
  // Errors of all stretches are correlated, so they add up linearly; rectangular, JCGM 100, 4.3.7.
  const edges = ((doseJPerM2 / lampOnS) * EDGE_S * pieces) / Math.sqrt(3);
  return Math.sqrt(gain * gain + zero * zero + random * random + edges * edges);
}

/**
 * The dose that is shown to have been reached at least, J/m2; below zero while nothing is shown.
 */
export function shownJPerM2(light: GivenLight, terms: DoseUncertaintyTerms): number {
  return light.doseJPerM2 - marginJPerM2(light, terms);
}

/** What a dose must exceed its target by: k u, and its bias on top. */
export const marginJPerM2 = (
  { doseJPerM2, lampOnS, pieces }: GivenLight,
  terms: DoseUncertaintyTerms,
): number => marginAt(doseJPerM2, lampOnS, pieces, terms);

function marginAt(
  doseJPerM2: number,
  lampOnS: number,
  pieces: number,
  terms: DoseUncertaintyTerms,
): number {
  const spread = terms.coverageFactor * uncertaintyAt(doseJPerM2, lampOnS, pieces, terms);
  return spread + terms.biasRatio * doseJPerM2;
}

const CLOSE_ENOUGH_S = 1e-3;
const MOST_ROUNDS = 100;

/**
 * Seconds of light at a steady `irradianceWPerM2` until the target is shown to be met; infinite in
 * the dark, and where the uncertainty grows as fast as the dose. The required dose is the target
 * plus the margin at that dose. Each iteration starts from the previous result, below the solution,
 * so that the value only grows.
 */
export function leftUntilShownS(
  light: GivenLight,
  irradianceWPerM2: number,
  targetJPerM2: number,
  terms: DoseUncertaintyTerms,
): number {
  if (shownJPerM2(light, terms) >= targetJPerM2) return 0;
  if (irradianceWPerM2 <= 0) return Number.POSITIVE_INFINITY;
  const { doseJPerM2, lampOnS } = light;
  const pieces = Math.max(1, light.pieces);
  let leftS = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const dose = doseJPerM2 + irradianceWPerM2 * leftS;
    const margin = marginAt(dose, lampOnS + leftS, pieces, terms);
    const nextS = (targetJPerM2 + margin - doseJPerM2) / irradianceWPerM2;
    if (Math.abs(nextS - leftS) < CLOSE_ENOUGH_S) return Math.max(0, nextS);
    leftS = nextS;
  }
  return Number.POSITIVE_INFINITY;
}
