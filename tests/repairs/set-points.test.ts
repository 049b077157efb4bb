import { expect, test } from 'vitest';
import type { JobConfig } from '../../src/controller-state.ts';
import { runRepair } from '../bench.ts';
import { DEFAULT_CONFIG } from '../configs.ts';

/** The default profile with its waits cut short: set-points, limits and approach are the same. */
const BRIEF: JobConfig = {
  ...DEFAULT_CONFIG,
  profile: {
    ...DEFAULT_CONFIG.profile,
    vacuum: { ...DEFAULT_CONFIG.profile.vacuum, dwellS: 10, longestDwellS: 10 },
    pressure: { ...DEFAULT_CONFIG.profile.pressure, dwellS: 10 },
  },
};

/** Runs the first cycle; extremes of the true pressure while it runs, Pa. */
function firstCycle(seed: number) {
  let lowestPa = Number.POSITIVE_INFINITY;
  let highestPa = 0;
  const run = runRepair({
    seed,
    config: BRIEF,
    watch: ({ snapshot }, board) => {
      const { pressurePa } = board.view().truth;
      lowestPa = Math.min(lowestPa, pressurePa);
      highestPa = Math.max(highestPa, pressurePa);
      return snapshot.phase === 'vent';
    },
  });
  return { lowestPa, highestPa, alarms: run.alarms, phase: run.last.snapshot.phase };
}

test('no seed of 200 passes the profile’s limits of vacuum or pressure, or settles off its set-point', () => {
  const { vacuum, pressure } = BRIEF.profile;
  for (let seed = 0; seed < 200; seed++) {
    const { lowestPa, highestPa, alarms, phase } = firstCycle(seed);
    expect(phase, `seed ${seed}`).toBe('vent');
    expect(alarms, `seed ${seed}`).toEqual([]);
    expect(lowestPa, `seed ${seed}`).toBeGreaterThan(vacuum.lowestPa);
    expect(highestPa - 100_600, `seed ${seed}`).toBeLessThan(pressure.highestGaugePa);
  }
});
