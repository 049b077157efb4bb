import { describe, expect, it } from 'vitest';
import { spreadsOf, summaryLines } from '../../../src/cli/run/simulate-summary.ts';
import type { RunResult } from '../../../src/cli/run/simulated-run.ts';
import { runHere } from '../here.ts';
import { scratchFolder } from '../process.ts';

const RUN: RunResult = {
  seed: 1,
  reason: 'completed',
  outcome: 'clear',
  why: '',
  boardS: 1000,
  cycles: 2,
  filledRatio: 0.97,
  vacuumReachedPa: 25_000,
  pressureReachedPa: 238_000,
  doseJPerM2: 63_000,
  lampOnS: 330,
  alarms: [],
};

describe('the summary of simulated runs', () => {
  // Standard deviation of 2, 4, 4, 4, 5, 5, 7, 9 with n - 1 is sqrt(32 / 7), a textbook series.
  it('gives mean and standard deviation of single runs', () => {
    const runs = [2, 4, 4, 4, 5, 5, 7, 9].map((lampOnS) => ({ ...RUN, lampOnS }));
    const lamp = spreadsOf(runs).find(({ what }) => what === 'lamp on');
    expect(lamp?.mean).toBe(5);
    expect(lamp?.standardDeviation).toBeCloseTo(Math.sqrt(32 / 7), 12);
  });

  it('counts a run without a cure among the ends and not in the dose', () => {
    const stopped: RunResult = { ...RUN, reason: 'alarm', outcome: null, doseJPerM2: null };
    const [head] = summaryLines([RUN, RUN, stopped]);
    expect(head).toBe('3 runs: 2 completed, clear; 1 alarm');
    expect(spreadsOf([RUN, stopped]).find(({ what }) => what === 'dose')?.runs).toBe(1);
  });
});

describe('meniscus simulate', () => {
  it('runs one seed after another, the same each time it is asked', async () => {
    const args = ['simulate', '--runs', '2', '--seed', '7', '--json'];
    const [one, other] = [
      await runHere(args, scratchFolder()),
      await runHere(args, scratchFolder()),
    ];
    expect(one.code).toBe(0);
    expect(one.out).toBe(other.out);
    const [series] = JSON.parse(one.out) as [{ runs: RunResult[] }];
    expect(series.runs.map(({ seed }) => seed)).toEqual([7, 8]);
    expect(series.runs.every(({ outcome }) => outcome === 'clear')).toBe(true);
    const apartFromSeed = series.runs.map((run) => ({ ...run, seed: 0 }));
    expect(apartFromSeed[0]).not.toEqual(apartFromSeed[1]);
  });

  it('tells of the alarm that ended a run', async () => {
    const { code, out } = await runHere(
      ['simulate', '--runs', '1', '--fault', 'emergency-stop'],
      scratchFolder(),
    );
    expect(code).toBe(0);
    expect(out).toMatch(/^ +1 .* alarm \(emergency-stop\)$/m);
    expect(out).toMatch(/^1 run: 1 alarm$/m);
    expect(out).not.toContain('lamp on');
  });

  it('refuses a profile that is not there, and starts nothing', async () => {
    const { code, err } = await runHere(['simulate', '--profile', 'none.json'], scratchFolder());
    expect(code).toBe(2);
    expect(err).toContain('none.json');
  });
});
