import { describe, expect, test } from 'vitest';
import { problemLine } from '../../../../src/core/settings.ts';
import {
  jobBeyondLamp,
  jobCuresOf,
  jobTargetsOf,
  portionIn,
} from '../../../../src/procedure/repair/cure/job-target.ts';
import type { RepairConfig } from '../../../../src/procedure/repair/repair-state.ts';
import { DEFAULT_CONFIG } from '../../../configs.ts';
import { FILL_PASSES, PIT_PASSES } from '../../../light-path.ts';

/** The default job with a deeper break, or another lamp. */
function deep(depthM: number, lampWPerM2: number | null = 195): RepairConfig {
  const { unit, job } = DEFAULT_CONFIG;
  return {
    ...DEFAULT_CONFIG,
    unit: { ...unit, lampLastKnownWPerM2: lampWPerM2 },
    job: {
      ...job,
      damage: { ...job.damage, depthM },
      // 1 kJ/m2 at the face, times e every half millimetre.
      resin: { ...job.resin, curve: { criticalJPerM2: 1000, penetrationM: 0.5e-3 } },
    },
  };
}

const lines = (config: RepairConfig): readonly string[] =>
  jobBeyondLamp(config, 'job.json').map(problemLine);

describe('the target of a job', () => {
  test('in the demo is the profile’s', () => {
    expect(jobTargetsOf(DEFAULT_CONFIG).fill).toMatchObject({
      setBy: 'profile',
      atResinJPerM2: 48_000,
    });
    const { targetJPerM2, leastS, longestS } = jobCuresOf(DEFAULT_CONFIG).fill;
    expect(targetJPerM2).toBeCloseTo(48_000 / FILL_PASSES, 6);
    expect([leastS, longestS]).toEqual([300, 600]);
  });

  test('is what a deep break requires, in the same times', () => {
    const { targetJPerM2, leastS, longestS } = jobCuresOf(deep(1.9e-3)).fill;
    // 1000 exp(3.8) times margin 2, over what film and spot let through.
    expect(targetJPerM2).toBeCloseTo((44_701.18 * 2) / FILL_PASSES, 0);
    expect([leastS, longestS]).toEqual([300, 600]);
  });
});

/** The same, with its pit cured apart. */
function apart(pitDepthM: number | null, lampWPerM2: number | null = 195): RepairConfig {
  const config = deep(1.5e-3, lampWPerM2);
  const { profile, job } = config;
  const pitCure = { targetAtResinJPerM2: 15_000 * PIT_PASSES, leastS: 60, longestS: 120 };
  return {
    ...config,
    profile: { ...profile, curing: 'apart', pitCure },
    job: {
      ...job,
      damage: { ...job.damage, pitDepthM },
      pitResin: {
        name: 'demo pit resin',
        lot: 'demo-lot-2',
        curve: { criticalJPerM2: 1000, penetrationM: 0.25e-3 },
      },
    },
  };
}

describe('the targets of fill and pit', () => {
  test('are one and the same where they are cured together', () => {
    const config = deep(1.9e-3);
    expect(jobTargetsOf(config).pit).toBe(jobTargetsOf(config).fill);
    expect(jobCuresOf(config).pit).toBe(jobCuresOf(config).fill);
    expect(portionIn('cure', config)).toBe('fill');
  });

  test('apart are the profile’s for each, in the times of each', () => {
    const config = apart(null);
    expect(jobCuresOf(config)).toMatchObject({
      fill: { leastS: 300, longestS: 600 },
      pit: { leastS: 60, longestS: 120 },
    });
    expect(jobCuresOf(config).fill.targetJPerM2).toBeCloseTo(48_000 / FILL_PASSES, 6);
    expect(jobCuresOf(config).pit.targetJPerM2).toBeCloseTo(15_000, 6);
    expect(portionIn('cure-fill', config)).toBe('fill');
    expect(portionIn('uncover-fill', config)).toBe('fill');
    expect(portionIn('fill-pit', config)).toBe('pit');
    expect(portionIn('cure', config)).toBe('pit');
  });

  test('of the pit follows its own depth and its own resin', () => {
    const { fill, pit } = jobTargetsOf(apart(0.5e-3));
    // 1000 exp(2) times margin 2, over film and spot.
    expect(pit).toMatchObject({ setBy: 'break' });
    expect(pit.targetJPerM2).toBeCloseTo((1000 * Math.exp(2) * 2) / PIT_PASSES, 6);
    expect(fill.setBy).toBe('profile');
  });

  test('a pit too deep for the lamp is refused with its own field and time', () => {
    // 195 W/m2 for 120 s is 23.4 kJ/m2.
    expect(lines(apart(0.55e-3))).toEqual([]);
    expect(lines(apart(0.6e-3))).toEqual([
      expect.stringMatching(
        /^job\.json: damage\.pitDepthMm is 0\.6, which requires 2565 mJ\/cm2 .*; accepted: a depth cured within pitCure\.longestS, 120 s: this takes 1[34]\d s at 19\.5 mW\/cm2, the lamp's last known output$/,
      ),
    ]);
  });
});

describe('a break too deep for the lamp', () => {
  test('is refused before the job with depth, dose, time and lamp', () => {
    expect(lines(deep(2e-3))).toEqual([
      expect.stringMatching(
        /^job\.json: damage\.depthMm is 2, which requires 1\.342e\+4 mJ\/cm2 at the sensor by the resin's working curve, margin, film and spot; accepted: a depth cured within cure\.longestS, 600 s: this takes 7\d\d s at 19\.5 mW\/cm2, the lamp's last known output$/,
      ),
    ]);
  });

  test('is refused from where the dose is not shown to be given in the longest time', () => {
    // 195 W/m2 for 600 s is 117 kJ/m2; what the dose must be over its target is a few percent.
    expect(lines(deep(1.89e-3))).toEqual([]);
    expect(lines(deep(1.92e-3))).toHaveLength(1);
  });

  test('is taken when nobody knows the lamp, unless no lamp may give so much', () => {
    expect(lines(deep(2e-3, null))).toEqual([]);
    expect(lines(deep(2.6e-3, null))).toEqual([]);
    expect(lines(deep(2.7e-3, null))).toEqual([
      "job.json: damage.depthMm is 2.7, which requires 5.442e+4 mJ/cm2 at the sensor by the resin's working curve, margin, film and spot; accepted: a depth that requires at most 5.000e+4 mJ/cm2",
    ]);
  });

  test('is left to the self-test where the profile’s own target is beyond the lamp', () => {
    expect(lines(deep(1e-3, 50))).toEqual([]);
  });
});
