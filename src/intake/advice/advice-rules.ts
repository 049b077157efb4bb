/**
 * The figures behind advice, as data: starting values for each kind of damage, the ranges that
 * advice never leaves, and the conditions of glass or air that need a preparation first.
 * `advice.ts` calculates the advice for one break.
 */
import { z } from 'zod';
import { choice, quantity, schemaName, text, wholeNumber } from '../../core/settings.ts';

const forDamage = z.strictObject({
  /** The path that the resin must fill: the radius of a ring, or the longest leg. */
  runs: choice(['radius', 'longest-leg']),
  /** Flow path for which the pressure dwell below is meant. */
  runMm: quantity(1, 400, 'mm'),
  vacuumDwellS: quantity(5, 600, 's'),
  pressureKPaGauge: quantity(20, 400, 'kPa over atmosphere'),
  pressureDwellS: quantity(5, 1200, 's'),
  cycles: wholeNumber(1, 10, 'cycles'),
  /** Viscosity at the glass temperature. */
  leastMPaS: quantity(1, 2000, 'mPa s'),
  mostMPaS: quantity(1, 2000, 'mPa s'),
});
export type DamageAdvice = z.infer<typeof forDamage>;

export const adviceRulesSchema = z.strictObject({
  schema: schemaName('meniscus/advice@1'),
  source: text(200),
  vacuum: z.strictObject({
    setPointKPaAbs: quantity(5, 90, 'kPa absolute'),
    lowestKPaAbs: quantity(1, 90, 'kPa absolute'),
    reachWithinS: quantity(2, 300, 's'),
    extendByS: quantity(5, 300, 's'),
    longestDwellS: quantity(5, 900, 's'),
  }),
  pressure: z.strictObject({
    highestKPaGauge: quantity(20, 400, 'kPa over atmosphere'),
    reachWithinS: quantity(2, 300, 's'),
    restS: quantity(0, 300, 's'),
    leastDwellS: quantity(5, 1200, 's'),
    longestDwellS: quantity(5, 1200, 's'),
  }),
  cycles: z.strictObject({
    most: wholeNumber(1, 10, 'cycles'),
    extra: wholeNumber(0, 10, 'cycles'),
  }),
  glass: z.strictObject({
    lowestC: quantity(0, 40, 'degrees Celsius'),
    highestC: quantity(15, 80, 'degrees Celsius'),
  }),
  /** Glass closer to the dew point than this is dried first. */
  aboveDewPointK: quantity(0, 20, 'K'),
  humidAirPercent: quantity(0, 100, '%'),
  /** An older break holds more water and dirt. */
  oldBreakDays: quantity(1, 10_000, 'days'),
  /** Share of the stress intensity of slow leg growth that pressure may use. */
  kShareOfSlowGrowth: quantity(0.05, 1, ''),
  /** 0.25 MPa sqrt(m) for soda-lime glass in moist air, from memory. */
  slowGrowthMPaSqrtM: quantity(0.05, 1, 'MPa sqrt(m)').default(0.25),
  /** The conditions for which the dwells are meant. */
  reference: z.strictObject({
    viscosityMPaS: quantity(1, 2000, 'mPa s'),
    airKPa: quantity(55, 110, 'kPa absolute'),
  }),
  /** Copied into the profile unchanged. */
  cure: z.record(z.string(), z.number()),
  sealCheck: z.record(z.string(), z.number()),
  damage: z.strictObject({
    bullseye: forDamage,
    'half-moon': forDamage,
    'star-break': forDamage,
    'combination-break': forDamage,
    crack: forDamage,
  }),
});
export type AdviceRules = z.infer<typeof adviceRulesSchema>;
export type FilledDamage = keyof AdviceRules['damage'];
