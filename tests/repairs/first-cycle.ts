/** The first cycle of a repair on many simulated units: no limit is passed, set-points hold. */
import { expect } from 'vitest';
import type { RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { runRepair } from '../bench.ts';
import { DEFAULT_CONFIG } from '../configs.ts';

/** The default profile with its waits cut short: set-points, limits and approach are the same. */
const BRIEF: RepairConfig = {
  ...DEFAULT_CONFIG,
  profile: {
    ...DEFAULT_CONFIG.profile,
    sealCheck: { ...DEFAULT_CONFIG.profile.sealCheck, watchS: 15 },
    vacuum: { ...DEFAULT_CONFIG.profile.vacuum, dwellS: 10, longestDwellS: 10 },
    pressure: { ...DEFAULT_CONFIG.profile.pressure, dwellS: 10 },
  },
};

const { vacuum, pressure } = BRIEF.profile;
/** After this long in a dwell the regulator must have settled. */
const SETTLED_S = 3;
const HELD_WITHIN_PA = 1_500;
/** The simulated transmitter's own tolerance, 0.2 % of its 400 kPa: no regulator can see it. */
const SENSOR_PA = 800;

/** Runs the first cycle; extremes of the true pressure, and how far off it was once settled, Pa. */
function firstCycle(seed: number) {
  let lowestPa = Number.POSITIVE_INFINITY;
  let highestPa = 0;
  let farthestOffPa = 0;
  const run = runRepair({
    seed,
    config: BRIEF,
    watch: ({ snapshot, state }, board) => {
      const { pressurePa } = board.view().truth;
      lowestPa = Math.min(lowestPa, pressurePa);
      highestPa = Math.max(highestPa, pressurePa);
      const dwells = snapshot.phase === 'vacuum-dwell' || snapshot.phase === 'pressure-dwell';
      if (dwells && state.procedure.elapsedS > SETTLED_S) {
        const offPa = Math.abs(pressurePa - (snapshot.setPointPa ?? 0));
        farthestOffPa = Math.max(farthestOffPa, offPa);
      }
      return snapshot.phase === 'vent';
    },
  });
  const { alarms, last } = run;
  return { lowestPa, highestPa, farthestOffPa, alarms, phase: last.snapshot.phase };
}

export function expectFirstCycleWithin(seed: number): void {
  const cycle = firstCycle(seed);
  expect(cycle.phase, `seed ${seed}`).toBe('vent');
  expect(cycle.alarms, `seed ${seed}`).toEqual([]);
  expect(cycle.lowestPa, `seed ${seed}`).toBeGreaterThan(vacuum.lowestPa);
  expect(cycle.highestPa - 100_600, `seed ${seed}`).toBeLessThan(pressure.highestGaugePa);
  expect(cycle.farthestOffPa, `seed ${seed}`).toBeLessThan(HELD_WITHIN_PA + SENSOR_PA);
}

/** Seeds in tests of twenty each, so that a failure is found soon and no test is long. */
export const chunksOf = (from: number, to: number): readonly (readonly number[])[] =>
  Array.from({ length: (to - from) / 20 }, (_, chunk) =>
    Array.from({ length: 20 }, (_, seed) => from + chunk * 20 + seed),
  );
