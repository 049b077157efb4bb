/**
 * Holds the glass thermistor against the light that the light sensor reads: light that falls on the
 * glass must warm it. What the glass did by itself just before is carried on and taken off, because
 * a pane may warm or cool meanwhile. The lamp warms glass by a few kelvins only, so this needs a
 * minute or two, and it says nothing about the time before the lamp was on.
 */
import type { LampHeat } from '../lamp-heat-settings.ts';
import { type LampSeen, lampSeen, type Rise, toward } from './warming.ts';

export interface GlassWatch extends LampSeen {
  /** Since the light first fell on this glass; null before, s. */
  readonly sinceS: number | null;
  /** The reading, smoothed for a few seconds; null while there is none, K. */
  readonly glassK: number | null;
  /** The same, smoothed once and twice for longer: their difference is its slope, K. */
  readonly onceK: number;
  readonly twiceK: number;
  /** Reading and slope at the time when the light first fell on it. */
  readonly fromK: number;
  readonly slopeKPerS: number;
  /** Rise that the light alone gives to this glass, the usual one and the least. */
  readonly usualK: number;
  readonly leastK: number;
  /** What the reading has risen beyond what it did by itself, K. */
  readonly seenK: number;
  /** The cure that is judged, and the three rises at its beginning, K. */
  readonly cure: string | null;
  readonly before: Rises;
}

/** Rises of the glass since the light first fell on it. */
type Rises = Pick<GlassWatch, 'usualK' | 'leastK' | 'seenK'>;
const NOT_RISEN: Rises = { usualK: 0, leastK: 0, seenK: 0 };
const risesOf = ({ usualK, leastK, seenK }: Rises): Rises => ({ usualK, leastK, seenK });

export const GLASS_WATCH_START: GlassWatch = {
  lit: false,
  darkS: 0,
  sinceS: null,
  glassK: null,
  onceK: 0,
  twiceK: 0,
  fromK: 0,
  slopeKPerS: 0,
  usualK: 0,
  leastK: 0,
  seenK: 0,
  cure: null,
  before: NOT_RISEN,
};

export interface GlassScene {
  /** Null while the reading is not valid. */
  readonly glassK: number | null;
  /** The lamp's light as the light sensor reads it; 0 while the lamp is off, null if not known. */
  readonly lightWPerM2: number | null;
  readonly lampOn: boolean;
  /** Time constant with which the pane follows the air, s. */
  readonly paneFollowsAirS: number;
  /** The cure in hand; null between cures. Each must warm the glass again. */
  readonly cure: string | null;
}

/** Three times the time constant of the spot. */
const FORGOTTEN_S = 600;
/** White noise of 0.05 K leaves 0.004 K. */
const SMOOTHING_S = 5;
/** A count of the thermistor, 0.09 K, moves the slope by at most 0.07 K/min. */
const SLOPE_S = 30;

export function stepGlassWatch(
  watch: GlassWatch,
  scene: GlassScene,
  heat: LampHeat,
  dtS: number,
): GlassWatch {
  const { glassK, lampOn } = scene;
  const { lit, darkS } = lampSeen(watch, lampOn, dtS);
  const cure = scene.cure ?? watch.cure;
  if (glassK === null) return { ...GLASS_WATCH_START, darkS };
  const glassNowK = toward(watch.glassK ?? glassK, glassK, dtS, SMOOTHING_S);
  const onceK = toward(watch.glassK === null ? glassK : watch.onceK, glassK, dtS, SLOPE_S);
  const twiceK = toward(watch.glassK === null ? glassK : watch.twiceK, onceK, dtS, SLOPE_S);
  const before = cure === watch.cure ? watch.before : risesOf(watch);
  const now = { lit, darkS, glassK: glassNowK, onceK, twiceK, cure, before };
  // The warmth that a held cure left in the glass is carried on; after a longer dark it counts from
  // zero.
  const anew = lit && !watch.lit && watch.darkS > FORGOTTEN_S;
  if (watch.sinceS === null || anew) return beginning(now);
  return lightGoesOn(watch, watch.sinceS, now, scene, heat, dtS);
}

type Now = Pick<GlassWatch, 'lit' | 'darkS' | 'onceK' | 'twiceK' | 'cure' | 'before'> & {
  readonly glassK: number;
};

/** With the first light, or still without any. */
function beginning({ lit, darkS, glassK, onceK, twiceK, cure }: Now): GlassWatch {
  // Field by field: this runs at every tick before the lamp is on.
  return {
    lit,
    darkS,
    sinceS: lit ? 0 : null,
    glassK,
    onceK,
    twiceK,
    fromK: glassK,
    slopeKPerS: (onceK - twiceK) / SLOPE_S,
    usualK: 0,
    leastK: 0,
    seenK: 0,
    cure,
    before: NOT_RISEN,
  };
}

function lightGoesOn(
  { fromK, slopeKPerS, usualK, leastK }: GlassWatch,
  beforeS: number,
  { lit, darkS, glassK, onceK, twiceK, cure, before }: Now,
  { lightWPerM2, paneFollowsAirS }: GlassScene,
  heat: LampHeat,
  dtS: number,
): GlassWatch {
  const sinceS = beforeS + dtS;
  const byItselfK = slopeKPerS * paneFollowsAirS * -Math.expm1(-sinceS / paneFollowsAirS);
  const light = lightWPerM2 ?? 0;
  const { glassAbsorbsRatio, glassAbsorbsLeastRatio, glassWithinRatio } = heat;
  return {
    lit,
    darkS,
    sinceS,
    glassK,
    onceK,
    twiceK,
    fromK,
    slopeKPerS,
    usualK: warmed(usualK, glassAbsorbsRatio * light, heat, 0, dtS),
    leastK: warmed(leastK, glassAbsorbsLeastRatio * light, heat, glassWithinRatio, dtS),
    seenK: glassK - fromK - byItselfK,
    cure,
    before,
  };
}

/** Glass of `within` more capacity and loss than usual, warmed for `dtS`. */
function warmed(
  overK: number,
  absorbedWPerM2: number,
  { glassJPerM2K, glassWPerM2K }: LampHeat,
  within: number,
  dtS: number,
): number {
  const netWPerM2 = absorbedWPerM2 - glassWPerM2K * (1 + within) * overK;
  return overK + (dtS * netWPerM2) / (glassJPerM2K * (1 + within));
}

/** How much the lit glass lacks of the least rise of this cure; null while none is expected, K. */
export const glassLackK = ({ lit, glassK, leastK, seenK, before }: GlassWatch): number | null =>
  lit && glassK !== null ? leastK - before.leastK - (seenK - before.seenK) : null;

/** What this cure has warmed the glass by. */
export const glassRise = ({ glassK, seenK, usualK, before }: GlassWatch): Rise | null =>
  glassK === null || usualK === 0
    ? null
    : { seenK: seenK - before.seenK, usualK: usualK - before.usualK };
