/**
 * In which zone of a rule set a damage counts: the first in order that it touches. Where an answer
 * is missing, every zone that it may still count to is "perhaps". What holds there is left to the
 * rules.
 */
import type { Area } from '../sheet/area.ts';
import { footprintOf, touches } from '../sheet/footprint.ts';
import type { IntakeSheet, Unknown } from '../sheet/intake-sheet.ts';
import { footprintRestsOn } from '../sheet/measures.ts';
import { ANYWHERE, type Zone } from './rule-set.ts';

/** Whether something is so; unknown where an answer is missing. */
export type Verdict = boolean | Unknown;

/** So if all are so; not so if one is not. */
export const allOf = (verdicts: readonly Verdict[]): Verdict =>
  verdicts.includes(false) ? false : verdicts.includes('unknown') ? 'unknown' : true;

/** So if one is so; not so if none is. */
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

/** Whether a rule that holds in these zones holds at this damage. */
export const inOneOf = (verdicts: readonly ZoneVerdict[], ids: readonly string[]): Verdict =>
  ids.includes(ANYWHERE)
    ? true
    : anyOf(verdicts.flatMap(({ zone, countsHere }) => (ids.includes(zone.id) ? countsHere : [])));

/** Paths of the answers from which a zone is told. */
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
    case 'sweep':
      return ['pane.sweep'];
    case 'driver-half':
    case 'driver-band':
      return ['pane.driverSide'];
    case 'above-wheel':
      return ['pane.wheelTopMm'];
    case 'strip':
      return [`pane.${area.about}CentreMm`];
    case 'box':
      return [`pane.${area.about}CentreMm`, 'pane.wheelTopMm'];
  }
}
