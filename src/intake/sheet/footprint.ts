/**
 * The area that a damage covers on the pane: a circle about its pit (or about the middle of a
 * crack) that holds its farthest point. It gives the damage's contact with an area, the distance to
 * it, and the distances to the four edges. Touching counts as inside. Missing answers give
 * "unknown", never a distance. The assessment compares distances with rules.
 */
import { type Area, type Pane, type Place, type Rect, rectOf } from './area.ts';
import type { IntakeSheet, Unknown } from './intake-sheet.ts';

export interface Footprint {
  readonly xMm: number | Unknown;
  readonly yMm: number | Unknown;
  readonly radiusMm: number | Unknown;
}

type Damage = IntakeSheet['damage'];

export function footprintOf({ damage, place }: IntakeSheet): Footprint {
  return { xMm: place.fromLeftMm, yMm: place.fromTopMm, radiusMm: radiusOf(damage) };
}

/**
 * Legs start at the pit, so one long leg reaches farther than half the diameter. A crack is
 * measured along its course from end to end, which is never shorter than its reach.
 */
function radiusOf({ type, diameterMm, longestLegMm }: Damage): number | Unknown {
  if (type === 'unknown') return 'unknown';
  if (type === 'crack') return longestLegMm === 'unknown' ? 'unknown' : longestLegMm / 2;
  if (diameterMm === 'unknown') return 'unknown';
  if (type !== 'star-break' && type !== 'combination-break') return diameterMm / 2;
  return longestLegMm === 'unknown' ? 'unknown' : Math.max(diameterMm / 2, longestLegMm);
}

/**
 * Whether the damage touches the area; where an answer is missing, only what is certain without it.
 */
export function touches(footprint: Footprint, area: Area, pane: Pane): boolean | Unknown {
  if (area.kind === 'both' && area.parts.some((part) => touches(footprint, part, pane) === false)) {
    return false;
  }
  const place = rectOf(area, pane);
  if (place === null) return false;
  if (place === 'unknown') return 'unknown';
  const fromPitMm = pitDistanceMm(footprint, place);
  if (fromPitMm === 'unknown') return 'unknown';
  if (fromPitMm === 0) return true;
  return footprint.radiusMm === 'unknown'
    ? 'unknown'
    : withoutNoiseMm(fromPitMm - footprint.radiusMm) <= 0;
}

/** From the damage's rim to the area, 0 where it touches; null where there is no such area. */
export function gapToMm(footprint: Footprint, place: Place): number | null | Unknown {
  if (place === null) return null;
  if (place === 'unknown' || footprint.radiusMm === 'unknown') return 'unknown';
  const fromPitMm = pitDistanceMm(footprint, place);
  return fromPitMm === 'unknown'
    ? 'unknown'
    : Math.max(0, withoutNoiseMm(fromPitMm - footprint.radiusMm));
}

/**
 * A subtraction that leaves less than a nanometre is no distance: a point on the border stays on
 * the border.
 */
const withoutNoiseMm = (mm: number): number => Math.round(mm * 1e6) / 1e6;

function pitDistanceMm({ xMm, yMm }: Footprint, rect: Rect): number | Unknown {
  if (xMm === 'unknown' || yMm === 'unknown') return 'unknown';
  const besideMm = Math.max(rect.leftMm - xMm, 0, xMm - rect.rightMm);
  const overMm = Math.max(rect.topMm - yMm, 0, yMm - rect.bottomMm);
  return Math.hypot(besideMm, overMm);
}

export interface EdgeGaps {
  readonly leftMm: number | Unknown;
  readonly topMm: number | Unknown;
  readonly rightMm: number | Unknown;
  readonly bottomMm: number | Unknown;
}

/** From the damage's rim to each edge of the pane, 0 where it reaches the edge. */
export function edgeGaps({ xMm, yMm, radiusMm }: Footprint, pane: Pane): EdgeGaps {
  const gap = (fromMm: number | Unknown, ofMm: number | Unknown = 0): number | Unknown =>
    fromMm === 'unknown' || ofMm === 'unknown' || radiusMm === 'unknown'
      ? 'unknown'
      : Math.max(0, withoutNoiseMm(Math.abs(ofMm - fromMm) - radiusMm));
  return {
    leftMm: gap(xMm),
    topMm: gap(yMm),
    rightMm: gap(xMm, pane.widthMm),
    bottomMm: gap(yMm, pane.heightMm),
  };
}

/** The shortest of the four; unknown while one is missing. */
export function nearestEdgeMm(gaps: EdgeGaps): number | Unknown {
  const known = Object.values(gaps).filter((gap) => gap !== 'unknown');
  return known.length < 4 ? 'unknown' : Math.min(...known);
}
