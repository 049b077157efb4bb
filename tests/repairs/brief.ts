/**
 * The demo job with its waits cut short, for what their length does not prove: set-points, limits
 * and phases are the same. The long test runs the demo job itself.
 */
import type { RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { FILL_PASSES } from '../light-path.ts';

const { profile, job } = DEFAULT_CONFIG;

/** One cycle with short dwells, and the whole cure: 700 s in place of 1,013 s. */
export const ONE_CYCLE: RepairConfig = {
  ...DEFAULT_CONFIG,
  profile: {
    ...profile,
    sealCheck: { ...profile.sealCheck, watchS: 15 },
    vacuum: { ...profile.vacuum, dwellS: 25, longestDwellS: 25 },
    pressure: { ...profile.pressure, dwellS: 35, restS: 1 },
    cycles: { ...profile.cycles, planned: 1, extra: 0 },
  },
};

/** And 20 kJ/m2 of light, 110 s with its gaps: 356 s. */
export const BRIEF: RepairConfig = {
  ...ONE_CYCLE,
  profile: {
    ...ONE_CYCLE.profile,
    cure: { ...profile.cure, targetAtResinJPerM2: 20_000 * FILL_PASSES, leastS: 60 },
  },
  job: { ...job, damage: { ...job.damage, depthM: 0.5e-3 } },
};
