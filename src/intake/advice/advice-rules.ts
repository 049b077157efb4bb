/**
 * The figures that advice is made from, as data: what each kind of damage is begun with, the
 * ranges that nothing is advised outside of, and when glass or air asks for something first. What is
 * advised for one break is reckoned in `advice.ts`.
 */
import { z } from 'zod';
import { choice, quantity, schemaName, text, wholeNumber } from '../../core/settings.ts';

const forDamage = z.strictObject({
  /** What the resin must run along: the radius of a ring, or the longest leg. */
  runs: choice(['radius', 'longest-leg']),
  /** A run that the pressure dwell below is meant for. */
  runMm: quantity(1, 400, 'mm'),
  vacuumDwellS: quantity(5, 600, 's'),
  pressureKPaGauge: quantity(20, 400, 'kPa over atmosphere'),
  pressureDwellS: quantity(5, 1200, 's'),
  cycles: wholeNumber(1, 10, 'cycles'),
  /** Viscosity at the temperature of the glass. */
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
  /** Glass nearer to the dew point than this is dried first. */
  aboveDewPointK: quantity(0, 20, 'K'),
  humidAirPercent: quantity(0, 100, '%'),
  /** An older break holds more water and dirt. */
  oldBreakDays: quantity(1, 10_000, 'days'),
  /** How much of the stress intensity at which legs grow slowly, pressure may use. */
  kShareOfSlowGrowth: quantity(0.05, 1, ''),
  /** 0.25 MPa sqrt(m) for soda-lime glass in moist air, from memory. */
  slowGrowthMPaSqrtM: quantity(0.05, 1, 'MPa sqrt(m)').default(0.25),
  /** What the dwells are meant for. */
  reference: z.strictObject({
    viscosityMPaS: quantity(1, 2000, 'mPa s'),
    airKPa: quantity(55, 110, 'kPa absolute'),
  }),
  /** Taken into the profile as they are. */
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
