/**
 * The job sheet: what a person states about the damage, the glass and the resin before work starts,
 * as a file in trade units and as SI values inside. The people in a job file are kept apart from
 * the sheet, because the job's record must not hold them. Fitness for repair is left to the person
 * and to local rules.
 */
import { z } from 'zod';
import { choice, quantity, schemaName, text, wholeNumber } from '../../core/settings.ts';
import { jPerM2FromMJPerCm2, kFromCelsius } from '../../core/units.ts';

export const DAMAGE_TYPES = [
  'bullseye',
  'half-moon',
  'star-break',
  'combination-break',
  'crack',
] as const;

/**
 * The resin's working curve, both figures or neither: it belongs to one resin under one kind of
 * lamp.
 */
const workingCurveFile = {
  criticalExposureMJPerCm2: quantity(0.1, 1000, 'mJ/cm2').nullable().default(null),
  penetrationDepthMm: quantity(0.05, 10, 'mm').nullable().default(null),
};

const jobSheetFileSchema = z.strictObject({
  schema: schemaName('meniscus/job@1'),
  reference: text(40),
  /** Journals from before personal data were kept apart have it here; it is ignored. */
  technician: text(40).optional(),
  damage: z.strictObject({
    type: choice(DAMAGE_TYPES),
    /** Across the ring or the two longest legs, not the pit alone. */
    diameterMm: quantity(1, 400, 'mm'),
    pitMm: quantity(0.5, 15, 'mm'),
    legs: wholeNumber(0, 20, 'legs'),
    longestLegMm: quantity(0, 400, 'mm'),
    /** From the face of the glass to the bottom of the break; null when not measured. */
    depthMm: quantity(0.1, 3, 'mm').nullable().default(null),
    /** Where a crack ends; a person looked. */
    crackEnd: choice(['outer-ply', 'not-known']).default('not-known'),
    /** Depth of the pit that the pit resin levels; null when not measured. */
    pitDepthMm: quantity(0.05, 3, 'mm').nullable().default(null),
  }),
  glassC: quantity(-20, 80, 'degrees Celsius'),
  airC: quantity(-20, 50, 'degrees Celsius'),
  resin: z.strictObject({
    name: text(40),
    lot: text(40),
    viscosityMPaSAt20C: quantity(1, 2000, 'mPa s'),
    ...workingCurveFile,
  }),
  /** The pit's resin, where it differs from the fill's. */
  pitResin: z
    .strictObject({ name: text(40), lot: text(40), ...workingCurveFile })
    .nullable()
    .default(null),
  notes: z.string({ error: 'a text of up to 500 characters' }).max(500).default(''),
});

type JobSheetFile = z.infer<typeof jobSheetFileSchema>;
type CurveFile = Pick<JobSheetFile['resin'], keyof typeof workingCurveFile>;

/** One figure of a working curve is meaningless without the other. */
const paired = z.check<JobSheetFile>(({ value, issues }) => {
  for (const bottle of ['resin', 'pitResin'] as const) {
    const curve: CurveFile | null = value[bottle];
    if (curve === null) continue;
    const { criticalExposureMJPerCm2: critical, penetrationDepthMm: depth } = curve;
    if ((critical === null) === (depth === null)) continue;
    const missing = critical === null ? 'criticalExposureMJPerCm2' : 'penetrationDepthMm';
    const other = critical === null ? 'penetrationDepthMm' : 'criticalExposureMJPerCm2';
    issues.push({
      code: 'custom',
      input: value,
      path: [bottle, missing],
      message: `a number beside ${bottle}.${other}, or both null`,
    });
  }
});

function sheetOf(file: JobSheetFile) {
  return {
    reference: file.reference,
    damage: {
      type: file.damage.type,
      diameterM: file.damage.diameterMm / 1000,
      pitM: file.damage.pitMm / 1000,
      legs: file.damage.legs,
      longestLegM: file.damage.longestLegMm / 1000,
      depthM: metresOrNull(file.damage.depthMm),
      pitDepthM: metresOrNull(file.damage.pitDepthMm),
      crackEnd: file.damage.crackEnd,
    },
    glassK: kFromCelsius(file.glassC),
    airK: kFromCelsius(file.airC),
    resin: {
      name: file.resin.name,
      lot: file.resin.lot,
      viscosityPaSAt20C: file.resin.viscosityMPaSAt20C / 1000,
      curve: curveOf(file.resin),
    },
    pitResin:
      file.pitResin === null
        ? null
        : { name: file.pitResin.name, lot: file.pitResin.lot, curve: curveOf(file.pitResin) },
    notes: file.notes,
  };
}

/** Personal data of a job file: kept apart from the journal, so that they can be removed. */
export const PEOPLE_FIELDS = ['technician', 'vehicle', 'customer'] as const;

const people = {
  technician: text(40),
  /** A reference to the vehicle, such as its plate. */
  vehicle: text(40).optional(),
  customer: text(40).optional(),
};

/** The part of a job that the controller and the journal know. */
export const jobSheetSchema = jobSheetFileSchema.check(paired).transform(sheetOf);

/** What a person hands in: the sheet with technician, customer and vehicle. */
export const jobFileSchema = z
  .strictObject({ ...jobSheetFileSchema.shape, ...people })
  .check(paired)
  .transform((file) => ({ sheet: sheetOf(file), people: peopleOf(file) }));

function peopleOf(
  file: Readonly<{ [K in (typeof PEOPLE_FIELDS)[number]]?: string | undefined }>,
): Readonly<Record<string, string>> {
  return Object.fromEntries(
    PEOPLE_FIELDS.flatMap((name) => (file[name] === undefined ? [] : [[name, file[name]]])),
  );
}

/** A job file as given, without its people. */
export function withoutPeople(file: unknown): unknown {
  if (typeof file !== 'object' || file === null || Array.isArray(file)) return file;
  const names: readonly string[] = PEOPLE_FIELDS;
  return Object.fromEntries(Object.entries(file).filter(([key]) => !names.includes(key)));
}

const metresOrNull = (mm: number | null): number | null => (mm === null ? null : mm / 1000);

function curveOf({ criticalExposureMJPerCm2: critical, penetrationDepthMm: depth }: CurveFile) {
  if (critical === null || depth === null) return null;
  return { criticalJPerM2: jPerM2FromMJPerCm2(critical), penetrationM: depth / 1000 };
}

export type JobSheet = z.infer<typeof jobSheetSchema>;
