/**
 * Standard uncertainty of a dose, and what dose is shown to have been given at least. The sensor's
 * gain errs alike all through a cure and so never averages out; its zero adds up with time; noise
 * averages down; and the light between two frames at an edge is not seen. A target counts as shown
 * to be met by guarded acceptance, JCGM 106:2012, 8.3.2: dose - k u at or over it, so that a doubt
 * can only lengthen a cure. Where the figures come from is decided by the sensor's budget.
 */

export interface DoseDoubt {
  /** Relative standard uncertainty that the whole cure has in common. */
  readonly gainRatio: number;
  /** Standard uncertainty that every reading has in common. */
  readonly zeroWPerM2: number;
  /** Standard deviation of single readings about their mean. */
  readonly randomWPerM2: number;
  /** Standard uncertainties that the dose must be over its target, one-sided. */
  readonly coverageFactor: number;
}

/** What of a dose its uncertainty depends on. */
export interface GivenLight {
  readonly doseJPerM2: number;
  readonly lampOnS: number;
  /** Stretches of light, each with a beginning and an end that no frame saw. */
  readonly pieces: number;
}

/** The longest time that one reading stands for: the controller counts no more of a late frame. */
const READING_S = 0.1;
/** A reading is the middle of three samples, so that only every third is surely a new one. */
const NEW_READING_S = 3 * READING_S;
/** Half-width of the time that a stretch of light may be counted too short or too long. */
const EDGE_S = READING_S;

export function doseUncertaintyJPerM2(
  { doseJPerM2, lampOnS, pieces }: GivenLight,
  doubt: DoseDoubt,
): number {
  return uncertaintyAt(doseJPerM2, lampOnS, pieces, doubt);
}

/** As plain numbers, because it is asked many times a tick. */
function uncertaintyAt(doseJPerM2: number, lampOnS: number, pieces: number, doubt: DoseDoubt) {
  if (lampOnS <= 0) return 0;
  const gain = doubt.gainRatio * doseJPerM2;
  const zero = doubt.zeroWPerM2 * lampOnS;
  const random = doubt.randomWPerM2 * Math.sqrt(lampOnS * NEW_READING_S);
  // Every stretch errs the same way, so that they add up; rectangular, JCGM 100, 4.3.7.
  const edges = ((doseJPerM2 / lampOnS) * EDGE_S * pieces) / Math.sqrt(3);
  return Math.sqrt(gain * gain + zero * zero + random * random + edges * edges);
}

/** The dose that is shown to have been given at least, J/m2; below zero while nothing is shown. */
export function shownJPerM2(light: GivenLight, doubt: DoseDoubt): number {
  return light.doseJPerM2 - doubt.coverageFactor * doseUncertaintyJPerM2(light, doubt);
}

const CLOSE_ENOUGH_S = 1e-3;
const MOST_ROUNDS = 100;

/**
 * Seconds of light at a steady `irradianceWPerM2` until the target is shown to be met; infinite in
 * the dark, and where the doubt grows as fast as the dose. The needed dose is the target and the
 * margin at that dose: each round starts from the last one's, below, so that it only ever grows.
 */
export function leftUntilShownS(
  light: GivenLight,
  irradianceWPerM2: number,
  targetJPerM2: number,
  doubt: DoseDoubt,
): number {
  if (shownJPerM2(light, doubt) >= targetJPerM2) return 0;
  if (irradianceWPerM2 <= 0) return Number.POSITIVE_INFINITY;
  const { doseJPerM2, lampOnS } = light;
  const pieces = Math.max(1, light.pieces);
  let leftS = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const dose = doseJPerM2 + irradianceWPerM2 * leftS;
    const margin = doubt.coverageFactor * uncertaintyAt(dose, lampOnS + leftS, pieces, doubt);
    const nextS = (targetJPerM2 + margin - doseJPerM2) / irradianceWPerM2;
    if (Math.abs(nextS - leftS) < CLOSE_ENOUGH_S) return Math.max(0, nextS);
    leftS = nextS;
  }
  return Number.POSITIVE_INFINITY;
}
