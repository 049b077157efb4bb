/**
 * Which part of the counted light is shown to be the lamp's. The lamp is interrupted again and
 * again; in each gap the reading must fall to dark and come back. Light between two gaps that
 * passed is a piece that is shown. A piece whose closing gap fails never counts, whatever follows.
 * What a gap still reads beyond the zero error in the sensor's budget is taken off the piece: the
 * budget already holds the rest, and a zero below nothing only makes the dose too small. The
 * procedure decides when a gap is due, the alarms what a failed one leads to.
 */
import type { GapFailure } from '../core/events.ts';
import type { Measured } from '../core/frame.ts';
import type { Portion } from '../core/measurements.ts';
import { NO_DOSE, stepDose } from './dose.ts';
import type { GivenLight } from './dose-uncertainty.ts';

export type CuredBy = Portion | 'both';

/** The light of one portion that is shown, and the gaps that closed its pieces. */
export interface PortionProof extends GivenLight {
  readonly gapsPassed: number;
  readonly gapsFailed: number;
  /** The part of it whose brightness the lamp's known output did not confirm, J/m2. */
  readonly unconfirmedJPerM2: number;
}

/** The light since the last gap; nothing of it is shown yet. */
export interface OpenPiece extends GivenLight {
  readonly on: CuredBy;
  /** Last valid irradiance; null after a break in the readings. */
  readonly lastWPerM2: number | null;
  readonly unconfirmedJPerM2: number;
  /** What the sensor read in the gap before, W/m2. */
  readonly zeroWPerM2: number;
  /** The light came back after that gap. */
  readonly back: boolean;
  /** Why this piece cannot count even if its closing gap passes; null while nothing is wrong. */
  readonly spoiltBy: GapFailure | null;
  /** Length of light after which its closing gap is due, s. */
  readonly dueAfterS: number;
}

export interface FailedGap {
  readonly on: CuredBy;
  readonly why: GapFailure;
  /** Light that never counts for it, J/m2. */
  readonly lostJPerM2: number;
}

export interface LightProof {
  readonly portions: Readonly<Record<Portion, PortionProof>>;
  readonly piece: OpenPiece | null;
  /** How long the lamp has been off, s; it stands still once nothing depends on it. */
  readonly offS: number;
  /** What the sensor reads in the dark, W/m2; null while it is not dark. */
  readonly darkWPerM2: number | null;
  /** Last light of the lamp, for what is still to come; null before the first. */
  readonly litWPerM2: number | null;
  /** The gap that failed in this tick. */
  readonly failed: FailedGap | null;
}

const NOTHING_SHOWN: PortionProof = {
  doseJPerM2: 0,
  lampOnS: 0,
  pieces: 0,
  gapsPassed: 0,
  gapsFailed: 0,
  unconfirmedJPerM2: 0,
};

export const NO_PROOF: LightProof = {
  portions: { fill: NOTHING_SHOWN, pit: NOTHING_SHOWN },
  piece: null,
  offS: 0,
  darkWPerM2: null,
  litWPerM2: null,
  failed: null,
};

export interface SeenLight {
  readonly irradianceWPerM2: Measured;
  readonly lampOn: boolean;
  readonly on: CuredBy;
  /** The lit reading has kept to its level since the lamp was switched on. */
  readonly steady: boolean;
  /** Its brightness agrees with what the lamp is known to give. */
  readonly confirmed: boolean;
  /** Number of this frame: from it follows the length of a piece that begins now. */
  readonly sequence: number;
}

export interface GapLimits {
  /** Highest reading that counts as dark, and lowest that counts as the lamp's light, W/m2. */
  readonly darkestWPerM2: number;
  readonly dimmestWPerM2: number;
  /** Zero error that the dose's uncertainty covers, W/m2. */
  readonly coveredZeroWPerM2: number;
}

/** The reading settles after the lamp's last light: it is the median of three samples. */
const DARK_SETTLES_S = 0.3;
/** A sound lamp and sensor need a third of this; a link that answers late may need the rest. */
const DARK_WITHIN_S = 1;
const BACK_WITHIN_S = 1;
/** The lamp's own rise, with the frames on the way: until then the light before the gap is shown. */
const RISES_WITHIN_S = 0.5;
/**
 * A piece that cannot count is not drawn out, but long enough for the alarms to see what spoilt it.
 */
const SPOILT_GOES_ON_S = 3;
/** Rounding of summed ticks. */
const SLACK_S = 1e-6;

/** Advances by `dtS` of a cure, lit or in a gap. */
export function stepLightProof(
  before: LightProof,
  seen: SeenLight,
  limits: GapLimits,
  dtS: number,
): LightProof {
  const proof = before.failed === null ? before : { ...before, failed: null };
  return seen.lampOn ? underLamp(proof, seen, limits, dtS) : inDark(proof, seen, limits, dtS);
}

function underLamp(proof: LightProof, seen: SeenLight, limits: GapLimits, dtS: number): LightProof {
  // The lamp is on again although nobody saw the last piece end.
  if (proof.piece !== null && proof.offS > 0) {
    return underLamp(dropped(proof, proof.piece, 'not-dark'), seen, limits, dtS);
  }
  const piece = lit(proof.piece ?? opened(proof, seen), seen, limits, dtS);
  const risen = piece.lampOnS >= RISES_WITHIN_S;
  const litWPerM2 = (risen ? piece.lastWPerM2 : null) ?? proof.litWPerM2;
  const { portions, failed } = proof;
  const after = { portions, piece, offS: 0, darkWPerM2: null, litWPerM2, failed };
  const known = failed !== null || (proof.piece !== null && proof.piece.spoiltBy !== null);
  return piece.spoiltBy === null || known ? after : failing(after, piece, piece.spoiltBy);
}

const opened = ({ darkWPerM2 }: LightProof, { on, sequence }: SeenLight): OpenPiece => ({
  ...NO_DOSE,
  on,
  unconfirmedJPerM2: 0,
  zeroWPerM2: darkWPerM2 ?? 0,
  back: false,
  spoiltBy: darkWPerM2 === null ? 'not-dark' : null,
  dueAfterS: lengthOfPieceS(sequence),
});

function lit(
  piece: OpenPiece,
  { irradianceWPerM2: light, steady, confirmed }: SeenLight,
  limits: GapLimits,
  dtS: number,
): OpenPiece {
  const { doseJPerM2, lampOnS, pieces, lastWPerM2 } = stepDose(piece, light, true, dtS);
  const back = piece.back || (light.ok && light.value >= limits.dimmestWPerM2);
  const late = !back && lampOnS >= BACK_WITHIN_S - SLACK_S;
  const spoiltBy = piece.spoiltBy ?? (late ? 'not-back' : steady ? null : 'unsteady');
  return {
    doseJPerM2,
    lampOnS,
    pieces,
    lastWPerM2,
    on: piece.on,
    unconfirmedJPerM2: piece.unconfirmedJPerM2 + (confirmed ? 0 : doseJPerM2 - piece.doseJPerM2),
    zeroWPerM2: piece.zeroWPerM2,
    back,
    spoiltBy,
    dueAfterS:
      spoiltBy !== null && piece.spoiltBy === null
        ? Math.min(piece.dueAfterS, lampOnS + SPOILT_GOES_ON_S)
        : piece.dueAfterS,
  };
}

function inDark(
  proof: LightProof,
  { irradianceWPerM2: light }: SeenLight,
  limits: GapLimits,
  dtS: number,
): LightProof {
  const offS = proof.offS + dtS;
  const settled = offS >= DARK_SETTLES_S - SLACK_S;
  const dark = settled && light.ok && light.value <= limits.darkestWPerM2;
  const { portions, piece, litWPerM2 } = proof;
  const after: LightProof = {
    portions,
    piece,
    offS,
    darkWPerM2: dark ? light.value : null,
    litWPerM2,
    failed: null,
  };
  if (piece === null) return after;
  if (dark) return closed(after, piece, light.value, limits);
  return offS >= DARK_WITHIN_S - SLACK_S ? dropped(after, piece, 'not-dark') : after;
}

/** The gap passed: the piece is shown, unless something in it was wrong. */
function closed(
  proof: LightProof,
  piece: OpenPiece,
  darkWPerM2: number,
  limits: Pick<GapLimits, 'coveredZeroWPerM2'>,
): LightProof {
  // Its failure was reported when it was spoilt.
  if (piece.spoiltBy !== null) return { ...proof, piece: null };
  const shownJPerM2 = shownOf(piece, Math.max(piece.zeroWPerM2, darkWPerM2), limits);
  const portions = onEach(proof.portions, piece.on, (own) => ({
    doseJPerM2: own.doseJPerM2 + shownJPerM2,
    lampOnS: own.lampOnS + piece.lampOnS,
    pieces: own.pieces + piece.pieces,
    gapsPassed: own.gapsPassed + 1,
    gapsFailed: own.gapsFailed,
    unconfirmedJPerM2: own.unconfirmedJPerM2 + piece.unconfirmedJPerM2,
  }));
  return { ...proof, portions, piece: null };
}

/** The piece's dose, less what the sensor reads in the dark beyond the zero error of its budget. */
function shownOf(
  { doseJPerM2, lampOnS }: OpenPiece,
  zeroWPerM2: number,
  { coveredZeroWPerM2 }: Pick<GapLimits, 'coveredZeroWPerM2'>,
): number {
  const beyondWPerM2 = Math.max(0, zeroWPerM2 - coveredZeroWPerM2);
  return Math.max(0, doseJPerM2 - beyondWPerM2 * lampOnS);
}

const dropped = (proof: LightProof, piece: OpenPiece, why: GapFailure): LightProof =>
  piece.spoiltBy === null
    ? { ...failing(proof, piece, why), piece: null }
    : { ...proof, piece: null };

const failing = (proof: LightProof, piece: OpenPiece, why: GapFailure): LightProof => ({
  ...proof,
  portions: onEach(proof.portions, piece.on, (own) => ({
    ...own,
    gapsFailed: own.gapsFailed + 1,
  })),
  failed: { on: piece.on, why, lostJPerM2: piece.doseJPerM2 },
});

/** Both portions of one exposure stay the same object, so that their sums cannot part. */
function onEach(
  { fill, pit }: LightProof['portions'],
  on: CuredBy,
  change: (own: PortionProof) => PortionProof,
): LightProof['portions'] {
  if (on === 'pit') return { fill, pit: change(pit) };
  const changed = change(fill);
  if (on === 'fill') return { fill: changed, pit };
  return { fill: changed, pit: pit === fill ? changed : change(pit) };
}

/** The light of a portion once the open piece is shown too, as far as can be told before its gap. */
export function withOpenPiece(
  { portions, piece }: LightProof,
  portion: Portion,
  limits: Pick<GapLimits, 'coveredZeroWPerM2'>,
): GivenLight {
  const own = portions[portion];
  if (piece === null || piece.spoiltBy !== null) return own;
  if (piece.on !== 'both' && piece.on !== portion) return own;
  return {
    doseJPerM2: own.doseJPerM2 + shownOf(piece, piece.zeroWPerM2, limits),
    lampOnS: own.lampOnS + piece.lampOnS,
    pieces: own.pieces + piece.pieces,
  };
}

/** The lamp has burnt long enough for the next gap. */
export const gapIsDue = ({ piece }: LightProof): boolean =>
  piece !== null && piece.lampOnS >= piece.dueAfterS;

const SHORTEST_PIECE_S = 20;
const SPREAD_S = 10;

/**
 * 20 to 30 s, drawn from the number of the frame in which the piece begins: a fault with a period of
 * its own cannot keep step with the gaps, and a journal's frames give the same gaps again. The
 * mixing is the finaliser of MurmurHash3 (from memory): its quality decides nothing here.
 */
export function lengthOfPieceS(sequence: number): number {
  let bits = Math.imul(sequence ^ (sequence >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return SHORTEST_PIECE_S + (SPREAD_S * ((bits ^ (bits >>> 16)) >>> 0)) / 2 ** 32;
}
