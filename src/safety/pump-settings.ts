/**
 * The pump's data sheet, as the unit file states it: what the strongest pump of this type does to a
 * closed chamber. The watch on the air calculates from it how the pressure must move. A worn pump
 * does less, which the watch measures in each job; none does more.
 */
import { z } from 'zod';
import { quantity } from '../core/settings.ts';

const M3_PER_S_PER_L_PER_MIN = 1e-3 / 60;

export const pumpSettingsSchema = z
  .strictObject({
    /**
     * Ratio of the atmosphere to the pressure that the pump leaves in a closed chamber: its
     * ultimate vacuum.
     */
    greatestRatio: quantity(2, 1000, 'times'),
    /** Flow at equal pressures, rated voltage and full drive; demo. */
    freeFlowLPerMin: quantity(0.05, 20, 'L/min').default(1.5),
    /** Pressure at which it no longer delivers; demo. */
    deadHeadKPaGauge: quantity(100, 1000, 'kPa over atmosphere').default(230),
    ratedV: quantity(3, 48, 'V').default(12),
    /** Time constant with which the motor follows its drive; demo. */
    startLagS: quantity(0.01, 1, 's').default(0.08),
  })
  .transform(({ freeFlowLPerMin, deadHeadKPaGauge, ...rest }) => ({
    ...rest,
    freeFlowM3PerS: freeFlowLPerMin * M3_PER_S_PER_L_PER_MIN,
    deadHeadPa: deadHeadKPaGauge * 1000,
  }));
export type PumpSettings = z.infer<typeof pumpSettingsSchema>;
