/**
 * The part of a profile that says how a crack is worked along its length: how far resin is driven
 * from one position of the injector, and by how much positions and fields of the lamp overlap. It
 * decides no number of them; `repair/work-plan.ts` does, from the job and the unit.
 */
import { z } from 'zod';
import { choice, quantity } from '../core/settings.ts';

/**
 * Whether a person is asked to stop the crack's end from running. Only where the job sheet says that
 * the end lies in the outer ply; common practice, no source.
 */
export const END_STOPS = ['where-known', 'never'] as const;

export const alongSchema = z
  .strictObject({
    /** From the injector to the end of what it fills. */
    reachMm: quantity(5, 100, 'mm'),
    positionsOverlapMm: quantity(0, 50, 'mm'),
    /** The lamp's field is the unit's. */
    fieldsOverlapMm: quantity(1, 50, 'mm'),
    endStop: choice(END_STOPS),
  })
  .check(({ value, issues }) => {
    if (2 * value.positionsOverlapMm <= value.reachMm) return;
    issues.push({
      code: 'custom',
      input: value,
      path: ['positionsOverlapMm'],
      message: `at most half of reachMm (${value.reachMm})`,
    });
  })
  .transform((file) => ({
    reachM: file.reachMm / 1000,
    positionsOverlapM: file.positionsOverlapMm / 1000,
    fieldsOverlapM: file.fieldsOverlapMm / 1000,
    endStop: file.endStop,
  }));
export type Along = z.infer<typeof alongSchema>;
