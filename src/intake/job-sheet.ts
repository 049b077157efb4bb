/**
 * The job sheet: what a person states about the damage, the glass and the resin before work starts,
 * as a file in trade units and as SI values inside. It decides nothing about fitness for repair;
 * that is left to the person and to local rules.
 */
import { z } from 'zod';
import { choice, quantity, schemaName, text, wholeNumber } from '../settings.ts';
import { kFromCelsius } from '../units.ts';

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
  }),
  glassC: quantity(-20, 80, 'degrees Celsius'),
  airC: quantity(-20, 50, 'degrees Celsius'),
  resin: z.strictObject({
    name: text(40),
    lot: text(40),
    viscosityMPaSAt20C: quantity(1, 2000, 'mPa s'),
  }),
  notes: z.string({ error: 'a text of up to 500 characters' }).max(500).default(''),
});

export const jobSheetSchema = jobSheetFileSchema.transform((file) => ({
  reference: file.reference,
  technician: file.technician,
  damage: {
    type: file.damage.type,
    diameterM: file.damage.diameterMm / 1000,
    pitM: file.damage.pitMm / 1000,
    legs: file.damage.legs,
    longestLegM: file.damage.longestLegMm / 1000,
  },
  glassK: kFromCelsius(file.glassC),
  airK: kFromCelsius(file.airC),
  resin: {
    name: file.resin.name,
    lot: file.resin.lot,
    viscosityPaSAt20C: file.resin.viscosityMPaSAt20C / 1000,
  },
  notes: file.notes,
}));
export type JobSheet = z.infer<typeof jobSheetSchema>;
