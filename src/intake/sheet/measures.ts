/**
 * What a rule may be about: every quantity and question with its words, its unit or its possible
 * answers, how it is read from an intake sheet, and which answers it depends on. A missing answer
 * makes it "unknown"; null means that there is nothing to measure (no other damage). Limits are
 * left to the rule sets.
 */
import { answerAt } from '../../core/fields.ts';
import { edgeGaps, footprintOf, nearestEdgeMm } from './footprint.ts';
import {
  INTAKE_DAMAGE_TYPES,
  type IntakeSheet,
  type Unknown,
  VEHICLE_CLASSES,
} from './intake-sheet.ts';

/** "unknown" is among the words. */
export type Answer = number | boolean | string | null;
export const LIMIT_UNITS = ['mm', 'in', 'edges', 'repairs', 'legs', 'days'] as const;
export type LimitUnit = (typeof LIMIT_UNITS)[number];

export interface Measure {
  readonly words: string;
  /** Unit of a quantity; null for a question. */
  readonly unit: Exclude<LimitUnit, 'in'> | null;
  /** Possible answers to a question; empty for a quantity. */
  readonly answers: readonly (string | boolean)[];
  readonly of: (sheet: IntakeSheet) => Answer;
  /** Paths of the answers that it depends on. */
  readonly restsOn: (sheet: IntakeSheet) => readonly string[];
}

type Part = 'damage' | 'place' | 'vehicle';

/** One answer of the sheet, unchanged. */
function plain<P extends Part>(part: P, field: keyof IntakeSheet[P] & string) {
  return {
    of: (sheet: IntakeSheet): Answer => sheet[part][field] as Answer,
    restsOn: () => [`${part}.${field}`],
  };
}

const quantity = <P extends Part>(
  part: P,
  field: keyof IntakeSheet[P] & string,
  unit: Exclude<LimitUnit, 'in'>,
  words: string,
): Measure => ({ words, unit, answers: [], ...plain(part, field) });

const yesNo = <P extends Part>(
  part: P,
  field: keyof IntakeSheet[P] & string,
  words: string,
): Measure => ({ words, unit: null, answers: [true, false], ...plain(part, field) });

const oneOf = <P extends Part>(
  part: P,
  field: keyof IntakeSheet[P] & string,
  answers: readonly string[],
  words: string,
): Measure => ({ words, unit: null, answers, ...plain(part, field) });

/** Whether there is one at all, derived from the distance to it. */
const present = (field: 'otherDamageMm' | 'earlierRepairMm', words: string): Measure => ({
  words,
  unit: null,
  answers: [true, false],
  of: ({ place }) => (place[field] === 'unknown' ? 'unknown' : place[field] !== null),
  restsOn: () => [`place.${field}`],
});

/** A crack's extent is its length; any other damage's is its width. */
const extentField = ({ damage }: IntakeSheet) =>
  damage.type === 'crack' ? 'longestLegMm' : 'diameterMm';

function extentMm(sheet: IntakeSheet): number | Unknown {
  return sheet.damage.type === 'unknown' ? 'unknown' : sheet.damage[extentField(sheet)];
}

/** Answers that the footprint depends on. */
export function footprintRestsOn(sheet: IntakeSheet): readonly string[] {
  const { type } = sheet.damage;
  const legged = type === 'star-break' || type === 'combination-break';
  return [
    'place.fromLeftMm',
    'place.fromTopMm',
    'damage.type',
    `damage.${extentField(sheet)}`,
    ...(legged ? ['damage.longestLegMm'] : []),
  ];
}

export const MEASURES = {
  extentMm: {
    words: 'greatest extent',
    unit: 'mm',
    answers: [],
    of: extentMm,
    restsOn: (sheet) => ['damage.type', `damage.${extentField(sheet)}`],
  },
  bodyMm: quantity('damage', 'bodyMm', 'mm', 'body without its legs'),
  pitMm: quantity('damage', 'pitMm', 'mm', 'pit'),
  legs: quantity('damage', 'legs', 'legs', 'number of legs'),
  longestLegMm: quantity('damage', 'longestLegMm', 'mm', 'longest crack or leg'),
  ageDays: quantity('damage', 'ageDays', 'days', 'age of the damage'),
  edgesReached: quantity('damage', 'edgesReached', 'edges', 'edges, seals or trim reached'),
  edgeDistanceMm: {
    words: 'distance from the nearest edge',
    unit: 'mm',
    answers: [],
    of: (sheet) => nearestEdgeMm(edgeGaps(footprintOf(sheet), sheet.pane)),
    restsOn: (sheet) => ['pane.widthMm', 'pane.heightMm', ...footprintRestsOn(sheet)],
  },
  otherDamageMm: quantity('place', 'otherDamageMm', 'mm', 'distance from other damage'),
  earlierRepairMm: quantity('place', 'earlierRepairMm', 'mm', 'distance from an earlier repair'),
  repairsOnPane: quantity('place', 'repairsOnPane', 'repairs', 'repairs on this pane'),
  type: oneOf('damage', 'type', INTAKE_DAMAGE_TYPES, 'type of damage'),
  vehicleClass: oneOf('vehicle', 'class', VEHICLE_CLASSES, 'class of vehicle'),
  edgeReached: {
    words: 'runs to an edge, seal or trim',
    unit: null,
    answers: [true, false],
    of: ({ damage }) => (damage.edgesReached === 'unknown' ? 'unknown' : damage.edgesReached > 0),
    restsOn: () => ['damage.edgesReached'],
  },
  otherDamage: present('otherDamageMm', 'other damage on the pane'),
  earlierRepair: present('earlierRepairMm', 'an earlier repair on the pane'),
  cracksMeet: yesNo('damage', 'cracksMeet', 'cracks meet'),
  impactPoint: yesNo('damage', 'impactPoint', 'has a point of impact'),
  moisture: oneOf('damage', 'moisture', ['dry', 'damp', 'wet'], 'moisture'),
  contamination: oneOf(
    'damage',
    'contamination',
    ['none', 'can-be-removed', 'stays'],
    'contamination',
  ),
  repairedBefore: yesNo('damage', 'repairedBefore', 'resin is in it already'),
  innerPlyTouched: yesNo('damage', 'innerPlyTouched', 'inner ply touched'),
  interlayerTouched: yesNo('damage', 'interlayerTouched', 'interlayer touched'),
  cameraField: yesNo('place', 'cameraField', 'in the field of a camera or sensor'),
  heatedField: yesNo('place', 'heatedField', 'in a heated field'),
  headUpDisplay: yesNo('place', 'headUpDisplay', 'in the field of a head-up display'),
  antenna: yesNo('place', 'antenna', 'on an antenna'),
  beforeFirstSale: yesNo('vehicle', 'beforeFirstSale', 'vehicle not yet sold to its first user'),
} as const satisfies Readonly<Record<string, Measure>>;

export type MeasureName = keyof typeof MEASURES;
export const MEASURE_NAMES = Object.keys(MEASURES) as [MeasureName, ...MeasureName[]];

/** Those of these answers that the sheet leaves open. */
export function openAnswers(sheet: IntakeSheet, paths: readonly string[]): readonly string[] {
  return [...new Set(paths)].filter((path) => answerAt(sheet, path) === 'unknown');
}
