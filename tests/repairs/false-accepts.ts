/**
 * Counts how often a unit says "met" and is wrong: cures of units whose errors are drawn from the
 * budget that the unit file states. The target is a twentieth of the demo's, so that 3,000 of them
 * take minutes; every error of the budget but that of the beginning goes with the dose, and that
 * one is 0.4 % of it. Neither a least time nor the depth of the break hides a sensor that reads too
 * high. The light of the first and last tenths of a second is not counted, which is a larger share
 * of a short cure: its margin is 10 % of the light, a whole cure's 6 %, so that fewer are wrong here.
 */
import type { RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { type CureAlone, cureAlone } from './cure-alone.ts';

const { profile, job } = DEFAULT_CONFIG;
const SHORT: RepairConfig = {
  ...DEFAULT_CONFIG,
  profile: { ...profile, cure: { ...profile.cure, targetAtResinJPerM2: 2500, leastS: 1 } },
  job: { ...job, damage: { ...job.damage, depthM: null } },
};

export interface Count {
  readonly cures: number;
  readonly met: number;
  /** Said to be met, and the resin had less than its target. */
  readonly falselyMet: number;
  /** The resin had its target, and the unit could not show it in the longest time. */
  readonly falselyNot: number;
  /** Light given after the resin had its target, as a share of the whole, on average. */
  readonly marginShare: number;
  readonly alarms: readonly string[];
}

export function countCures(fromSeed: number, cures: number): Count {
  const runs = Array.from({ length: cures }, (_, n) => cureAlone(SHORT, { seed: fromSeed + n }));
  const count = (is: (run: CureAlone) => boolean): number => runs.filter(is).length;
  const shares = runs.map(({ marginS, lampOnS }) => (marginS ?? 0) / lampOnS);
  return {
    cures,
    met: count(({ met }) => met),
    falselyMet: count(({ met, trueOverTarget }) => met && trueOverTarget < 1),
    falselyNot: count(({ met, trueOverTarget }) => !met && trueOverTarget >= 1),
    marginShare: shares.reduce((sum, share) => sum + share, 0) / cures,
    alarms: [...new Set(runs.flatMap(({ alarms }) => alarms))],
  };
}

/** Probability of this many or more of n, each with probability p. */
export function atLeast(many: number, n: number, p: number): number {
  let term = (1 - p) ** n;
  let below = 0;
  for (let k = 0; k < many; k++) {
    below += term;
    term *= ((n - k) / (k + 1)) * (p / (1 - p));
  }
  return 1 - below;
}
