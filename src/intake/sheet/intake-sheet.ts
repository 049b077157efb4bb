/**
 * The intake sheet: a person's answers about damage, pane, site and vehicle before anything is
 * decided. Every question may be answered "unknown". Positions are seen from the driver's seat, in
 * millimetres from the pane's left and top edges. `intake-conflicts.ts` checks the answers against
 * each other; the rule sets draw the consequences.
 */
import { z } from 'zod';
import { choice, quantity, schemaName, text, wholeNumber } from '../../core/settings.ts';

export const INTAKE_DAMAGE_TYPES = [
  'bullseye',
  'half-moon',
  'star-break',
  'combination-break',
  'crack',
  'surface-pit',
] as const;

export const VEHICLE_CLASSES = [
  'car',
  'van',
  'truck',
  'bus',
  'tractor',
  'motorcycle',
  'other',
] as const;

/** "Don't know" is an answer of its own, never a silent yes. */
export type Unknown = 'unknown';
const UNKNOWN = z.literal('unknown');
const orUnknown = <T extends z.ZodType>(schema: T, accepted: string) =>
  z.union([schema, UNKNOWN], { error: `${accepted}, or "unknown"` });

const millimetres = (min: number, max: number) =>
  orUnknown(quantity(min, max, 'mm'), `a number from ${min} to ${max} mm`);
const count = (min: number, max: number, unit: string) =>
  orUnknown(wholeNumber(min, max, unit), `a whole number from ${min} to ${max} ${unit}`);
const yesNo = orUnknown(z.boolean(), 'true, false');
const oneOf = <const T extends readonly [string, ...string[]]>(words: T) =>
  orUnknown(choice(words), `one of ${words.join(', ')}`);

const damage = z.strictObject({
  type: oneOf(INTAKE_DAMAGE_TYPES),
  /** Across the ring or the two longest legs, not the pit alone. */
  diameterMm: millimetres(0.5, 400),
  /** Body of a combination break without its legs. */
  bodyMm: millimetres(0, 400).default('unknown'),
  pitMm: millimetres(0, 30),
  legs: count(0, 20, 'legs'),
  /** The longest leg of a star, or a crack along its course. */
  longestLegMm: millimetres(0, 2000),
  depthMm: millimetres(0.1, 10),
  /** Number of pane edges, seals or trims that the damage runs to. */
  edgesReached: count(0, 4, 'edges'),
  /** Two cracks meet each other. */
  cracksMeet: yesNo,
  /** False where no stone hit: a crack from stress or twist. */
  impactPoint: yesNo,
  ageDays: orUnknown(quantity(0, 20_000, 'days'), 'a number from 0 to 20000 days'),
  moisture: oneOf(['dry', 'damp', 'wet']),
  contamination: oneOf(['none', 'can-be-removed', 'stays']),
  /** The break already contains resin. */
  repairedBefore: yesNo,
  innerPlyTouched: yesNo,
  interlayerTouched: yesNo,
});

const place = z.strictObject({
  /** Position of the pit, or of the middle of a crack. */
  fromLeftMm: millimetres(0, 3500),
  fromTopMm: millimetres(0, 2500),
  /**
   * Rim to rim with the nearest other damage and the nearest earlier repair; null where there is
   * none.
   */
  otherDamageMm: orUnknown(quantity(0, 3500, 'mm').nullable(), 'a number from 0 to 3500 mm, null'),
  earlierRepairMm: orUnknown(
    quantity(0, 3500, 'mm').nullable(),
    'a number from 0 to 3500 mm, null',
  ),
  repairsOnPane: count(0, 50, 'repairs'),
  /** Asked one by one, because a maker's own map of each takes precedence. */
  cameraField: yesNo,
  heatedField: yesNo,
  headUpDisplay: yesNo,
  antenna: yesNo,
});

const edges = z.strictObject({
  leftMm: quantity(0, 2000, 'mm'),
  rightMm: quantity(0, 2000, 'mm'),
  topMm: quantity(0, 2000, 'mm'),
  bottomMm: quantity(0, 2000, 'mm'),
});

const pane = z.strictObject({
  widthMm: millimetres(300, 3500),
  heightMm: millimetres(200, 2500),
  driverSide: oneOf(['left', 'right']),
  /** Centre lines of the steering wheel and of the driver's seat, from the pane's left edge. */
  wheelCentreMm: millimetres(0, 3500),
  seatCentreMm: millimetres(0, 3500),
  /** Top of the steering wheel as the driver sees it, above the pane's lower edge. */
  wheelTopMm: millimetres(0, 2500),
  /** The swept area, as distances from the four edges. */
  sweep: orUnknown(edges, 'leftMm, rightMm, topMm and bottomMm'),
  /**
   * Where a level line 650 mm above the lowest point of the unloaded driver's seat meets the glass,
   * above the pane's lower edge.
   */
  seatLineMm: millimetres(0, 2500).default('unknown'),
  /** What the inside mirror covers, as distances from the four edges. */
  mirror: orUnknown(edges, 'leftMm, rightMm, topMm and bottomMm').default('unknown'),
  /** The middle of the bar of a divided pane, from the left edge; null where there is none. */
  dividedAtMm: orUnknown(
    quantity(0, 3500, 'mm').nullable(),
    'a number from 0 to 3500 mm, null',
  ).default(null),
});

/** Measured beside the vehicle before advice is given. */
const conditions = z.strictObject({
  glassC: orUnknown(quantity(-20, 80, 'degrees Celsius'), 'a number from -20 to 80 C').default(
    'unknown',
  ),
  airC: orUnknown(quantity(-20, 50, 'degrees Celsius'), 'a number from -20 to 50 C').default(
    'unknown',
  ),
  humidityPercent: orUnknown(quantity(0, 100, '%'), 'a number from 0 to 100 %').default('unknown'),
  /** Local air pressure, not reduced to sea level. */
  airKPa: orUnknown(quantity(55, 110, 'kPa absolute'), 'a number from 55 to 110 kPa').default(
    'unknown',
  ),
});

export const intakeSheetSchema = z.strictObject({
  schema: schemaName('meniscus/intake@1'),
  reference: text(40),
  /** The day of the inspection, as YYYY-MM-DD. */
  lookedOn: z.iso.date({ error: 'a date as YYYY-MM-DD' }),
  /**
   * Names or files of the applicable rule sets; an empty list is answered with "needs a person".
   */
  ruleSets: z
    .array(text(260), { error: 'a list of names of rule sets' })
    .max(10, { error: 'up to 10 rule sets' }),
  /** References of the other damages of this pane, as far as they were known. */
  samePane: z
    .array(text(40), { error: 'a list of references' })
    .max(20, { error: 'up to 20 references' })
    .default([]),
  vehicle: z.strictObject({
    class: oneOf(VEHICLE_CLASSES),
    grossMassKg: orUnknown(quantity(50, 60_000, 'kg'), 'a number from 50 to 60000 kg'),
    /** Places to sit, the driver's among them. */
    seats: count(1, 200, 'seats').default('unknown'),
    /** Carries goods or people for a trade. */
    commercialUse: yesNo.default('unknown'),
    /** Not yet sold to its first user. */
    beforeFirstSale: yesNo,
  }),
  pane,
  damage,
  place,
  conditions: conditions.prefault({}),
  notes: z.string({ error: 'a text of up to 500 characters' }).max(500).default(''),
});
export type IntakeSheet = z.infer<typeof intakeSheetSchema>;
