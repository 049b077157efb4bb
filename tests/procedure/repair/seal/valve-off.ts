/**
 * Seeded series of the valve-off test as the controller receives them: a true rise, seen through
 * half a count of noise, the 10-bit converter over 400 kPa of a live-zero sensor, and the median of
 * three samples, 20 times a second. Written independently, so that it shares no mistake with the
 * fits.
 */
import { createChance } from '../../../../sim/random.ts';
import {
  type SealVerdict,
  sealVerdictOf,
} from '../../../../src/procedure/repair/seal/seal-finding.ts';
import { addReading, NO_RISE, type RiseSums, riseOf } from '../../../../src/procedure/rise.ts';

export const VOLUME_M3 = 30e-6;
export const LEAK_LIMIT = 0.005;
export const SETTLE_S = 2;
export const WATCH_S = 45;
const TICK_S = 0.05;
const STEP_PA = 400_000 / 0.8 / 1023;
const NOISE_COUNTS = 0.5;
const CLOSED_PA = 60_000;
const AIR_PA = 101_000;

/** Pa over the pressure at isolation, by time since then, s. */
export type TrueRise = (timeS: number) => number;

export interface Trial {
  readonly rise: TrueRise;
  readonly glassC: number;
  readonly watchS?: number;
}

export interface Readings {
  readonly isolatedPa: number;
  readonly sums: RiseSums;
}

export function readingsOf(seed: number, { rise, watchS = WATCH_S }: Trial): Readings {
  const chance = createChance(seed, 'noise');
  // Where on the converter's steps the test begins is chance too.
  const closedPa = CLOSED_PA + chance.uniform() * STEP_PA;
  const sample = (timeS: number): number =>
    Math.round((closedPa + rise(Math.max(0, timeS))) / STEP_PA + NOISE_COUNTS * chance.gaussian()) *
    STEP_PA;
  let [earlier, before] = [sample(-0.1), sample(-0.05)];
  const isolatedPa = sample(0);
  let sums = NO_RISE;
  for (let i = 1; i <= Math.round((SETTLE_S + watchS) / TICK_S); i++) {
    const timeS = i * TICK_S;
    const now = sample(timeS);
    const middle = Math.max(Math.min(earlier, before), Math.min(Math.max(earlier, before), now));
    [earlier, before] = [before, now];
    if (timeS >= SETTLE_S) sums = addReading(sums, timeS, middle);
  }
  return { isolatedPa, sums };
}

export function tested(seed: number, trial: Trial): SealVerdict {
  const { isolatedPa, sums } = readingsOf(seed, trial);
  return sealVerdictOf(riseOf(sums), {
    leakLimitPaM3PerS: LEAK_LIMIT,
    volumeM3: VOLUME_M3,
    settledS: SETTLE_S,
    watchedS: SETTLE_S + (trial.watchS ?? WATCH_S),
    isolatedPa,
    glassK: trial.glassC + 273.15,
  });
}

/** How many of the seeded series get each name. */
export function names(series: number, trial: Trial): Record<SealVerdict['finding'], number> {
  const count = { tight: 0, leak: 0, moisture: 0, outgassing: 0, unclear: 0 };
  for (let seed = 0; seed < series; seed++) count[tested(7 * seed + 1, trial).finding] += 1;
  return count;
}

/** A leak of so many times the limit at isolation, which slackens as the pressure rises. */
export function leaking(timesLimit: number): TrueRise {
  const flow = (pa: number): number => {
    const past = Math.max(0, (pa / AIR_PA - 0.3) / 0.7);
    return Math.sqrt(Math.max(0, 1 - past * past));
  };
  const paPerS = (timesLimit * LEAK_LIMIT) / VOLUME_M3 / flow(CLOSED_PA);
  const perS = 100;
  const table = [0];
  for (let pa = CLOSED_PA; table.length < 70 * perS; ) {
    pa += (paPerS * flow(pa)) / perS;
    table.push(pa - CLOSED_PA);
  }
  return (timeS) => table[Math.round(timeS * perS)] ?? 0;
}

/** Towards a plateau, on top of the little that a sound seal lets in (15 Pa/s). */
export const levelling =
  (heightPa: number, tauS: number, leakPaPerS = 15): TrueRise =>
  (timeS) =>
    heightPa * (1 - Math.exp(-timeS / tauS)) + leakPaPerS * timeS;
