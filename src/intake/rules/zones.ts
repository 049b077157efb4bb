/**
 * In which zone of a rule set a damage counts: the first in order that it touches. Where an answer
 * is missing, every zone to which it may still count is "perhaps". The rules say what holds there.
 */
import type { Area } from '../sheet/area.ts';
import { footprintOf, touches } from '../sheet/footprint.ts';
import type { IntakeSheet, Unknown } from '../sheet/intake-sheet.ts';
import { footprintRestsOn } from '../sheet/measures.ts';
import { ANYWHERE, type Zone } from './rule-set.ts';

/** A truth value, or unknown where an answer is missing. */
export type Verdict = boolean | Unknown;

/** True if all are true; false if one is false. */
export const allOf = (verdicts: readonly Verdict[]): Verdict =>
  verdicts.includes(false) ? false : verdicts.includes('unknown') ? 'unknown' : true;

/** True if one is true; false if all are false. */
export const anyOf = (verdicts: readonly Verdict[]): Verdict =>
  verdicts.includes(true) ? true : verdicts.includes('unknown') ? 'unknown' : false;

const not = (verdict: Verdict): Verdict => (verdict === 'unknown' ? verdict : !verdict);

export interface ZoneVerdict {
  readonly zone: Zone;
  readonly countsHere: Verdict;
}

export function zoneVerdicts(sheet: IntakeSheet, zones: readonly Zone[]): readonly ZoneVerdict[] {
  const footprint = footprintOf(sheet);
  const touched = zones.map((zone) => touches(footprint, zone.area, sheet.pane));
  return zones.map((zone, at) => ({
    zone,
    countsHere: allOf([touched[at] ?? false, ...touched.slice(0, at).map(not)]),
  }));
}

/** Whether a rule for these zones applies to this damage. */
export const inOneOf = (verdicts: readonly ZoneVerdict[], ids: readonly string[]): Verdict =>
  ids.includes(ANYWHERE)
    ? true
    : anyOf(verdicts.flatMap(({ zone, countsHere }) => (ids.includes(zone.id) ? countsHere : [])));

/** Paths of the answers that determine a zone. */
export const zoneRestsOn = (sheet: IntakeSheet, zones: readonly Zone[]): readonly string[] =>
  zones.length === 0
    ? []
    : [
        'pane.widthMm',
        'pane.heightMm',
        ...footprintRestsOn(sheet),
        ...zones.flatMap(({ area }) => areaRestsOn(area)),
      ];

function areaRestsOn(area: Area): readonly string[] {
  switch (area.kind) {
    case 'both':
      return area.parts.flatMap(areaRestsOn);
    case 'whole':
    case 'inset':
      return [];
    case 'divider':
      return ['pane.dividedAtMm'];
    case 'sweep':
    case 'below-sweep-top':
      return ['pane.sweep'];
    case 'swept-half':
      return ['pane.sweep', 'pane.driverSide'];
    case 'driver-half':
    case 'driver-band':
      return ['pane.driverSide'];
    case 'above-wheel':
      return ['pane.wheelTopMm'];
    case 'strip':
      return [`pane.${area.about}CentreMm`];
    case 'under-mirror':
      return ['pane.mirror'];
    case 'box':
    case 'across':
      return [
        ...(area.about === 'swept-half'
          ? ['pane.sweep', 'pane.driverSide']
          : [`pane.${area.about}CentreMm`]),
        area.level === 'seat-line' ? 'pane.seatLineMm' : 'pane.sweep',
      ];
  }
}
