/**
 * The mechanical relief valve: a spring holds it shut up to its cracking pressure (gauge), it lifts
 * in proportion above that, and is a fully open restriction at the full-flow pressure. It closes
 * without hysteresis and needs neither power nor controller.
 */
import { z } from 'zod';
import { quantity } from '../../../src/core/settings.ts';
import { type Restriction, restrictionSchema } from './flow.ts';

export interface ReliefValve {
  /** Gauge pressures, Pa: where it begins to lift and where it is fully open. */
  readonly cracksPa: number;
  readonly fullPa: number;
  readonly open: Restriction;
}

export const reliefSchema = z
  .strictObject({
    cracksKPa: quantity(10, 1000, 'kPa gauge'),
    fullKPa: quantity(11, 1200, 'kPa gauge'),
    open: restrictionSchema,
  })
  .refine(({ cracksKPa, fullKPa }) => fullKPa > cracksKPa, {
    path: ['fullKPa'],
    error: 'a pressure above cracksKPa',
  })
  .transform(
    ({ cracksKPa, fullKPa, open }): ReliefValve => ({
      cracksPa: cracksKPa * 1000,
      fullPa: fullKPa * 1000,
      open,
    }),
  );

/** Lift, 0 (seated) to 1 (fully open). */
export function liftRatio(
  { cracksPa, fullPa }: ReliefValve,
  chamberPa: number,
  atmospherePa: number,
): number {
  const lift = (chamberPa - atmospherePa - cracksPa) / (fullPa - cracksPa);
  return lift <= 0 ? 0 : Math.min(lift, 1);
}

/** Lift per pascal while it moves, 1/Pa; zero while it is seated or fully open. */
export const liftPerPa = ({ cracksPa, fullPa }: ReliefValve, lift: number): number =>
  lift > 0 && lift < 1 ? 1 / (fullPa - cracksPa) : 0;
