/**
 * The job sheet: what a person states about the damage, the glass and the resin before work starts,
 * as a file in trade units and as SI values inside. It decides nothing about fitness for repair;
 * that is left to the person and to local rules.
 */
import { z } from 'zod';
import { choice, quantity, schemaName, text, wholeNumber } from '../settings.ts';
import { jPerM2FromMJPerCm2, kFromCelsius } from '../units.ts';

export const DAMAGE_TYPES = [
  'bullseye',
  'half-moon',
  'star-break',
  'combination-break',
  'crack',
] as const;

const jobSheetFileSchema = z.strictObject({
  schema: schemaName('meniscus/job@1'),
  reference: text(40),
  technician: text(40),
  damage: z.strictObject({
    type: choice(DAMAGE_TYPES),
    /** Across the ring or the two longest legs, not the pit alone. */
    diameterMm: quantity(1, 400, 'mm'),
    pitMm: quantity(0.5, 15, 'mm'),
    legs: wholeNumber(0, 20, 'legs'),
    longestLegMm: quantity(0, 400, 'mm'),
    /** From the face of the glass to the bottom of the break; null when nobody measured it. */
    depthMm: quantity(0.1, 3, 'mm').nullable().default(null),
  }),
  glassC: quantity(-20, 80, 'degrees Celsius'),
  airC: quantity(-20, 50, 'degrees Celsius'),
  resin: z.strictObject({
    name: text(40),
    lot: text(40),
    viscosityMPaSAt20C: quantity(1, 2000, 'mPa s'),
    /** The resin's working curve, both or neither: it belongs to one resin under one kind of lamp. */
    criticalExposureMJPerCm2: quantity(0.1, 1000, 'mJ/cm2').nullable().default(null),
    penetrationDepthMm: quantity(0.05, 10, 'mm').nullable().default(null),
  }),
  notes: z.string({ error: 'a text of up to 500 characters' }).max(500).default(''),
});

type ResinFile = z.infer<typeof jobSheetFileSchema>['resin'];

/** One figure of a working curve without the other says nothing. */
const paired = z.check<{ readonly resin: ResinFile }>(({ value, issues }) => {
  const { criticalExposureMJPerCm2: critical, penetrationDepthMm: depth } = value.resin;
  if ((critical === null) === (depth === null)) return;
  const missing = critical === null ? 'criticalExposureMJPerCm2' : 'penetrationDepthMm';
  const other = critical === null ? 'penetrationDepthMm' : 'criticalExposureMJPerCm2';
  issues.push({
    code: 'custom',
    input: value,
    path: ['resin', missing],
    message: `a number beside resin.${other}, or both null`,
  });
});

export const jobSheetSchema = jobSheetFileSchema.check(paired).transform((file) => ({
  reference: file.reference,
  technician: file.technician,
  damage: {
    type: file.damage.type,
    diameterM: file.damage.diameterMm / 1000,
    pitM: file.damage.pitMm / 1000,
    legs: file.damage.legs,
    longestLegM: file.damage.longestLegMm / 1000,
    depthM: file.damage.depthMm === null ? null : file.damage.depthMm / 1000,
  },
  glassK: kFromCelsius(file.glassC),
  airK: kFromCelsius(file.airC),
  resin: {
    name: file.resin.name,
    lot: file.resin.lot,
    viscosityPaSAt20C: file.resin.viscosityMPaSAt20C / 1000,
    curve: curveOf(file.resin),
  },
  notes: file.notes,
}));

function curveOf({ criticalExposureMJPerCm2: critical, penetrationDepthMm: depth }: ResinFile) {
  if (critical === null || depth === null) return null;
  return { criticalJPerM2: jPerM2FromMJPerCm2(critical), penetrationM: depth / 1000 };
}

export type JobSheet = z.infer<typeof jobSheetSchema>;
